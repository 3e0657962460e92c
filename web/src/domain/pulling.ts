// From when on what waits in the ground is pulled.

import type { Pulled } from '../api/types';
import { parseDay, type Day } from './days';

/**
 * The day on which its weeks begin, as the program tells it: the plan's, or that of the first picking where that is
 * later. Nothing where no picking is expected and the plan names no day.
 */
export function pulledFrom({ pick_from: planned, events, facts }: Pulled): Day | undefined {
  const first = events?.find((event) => event.name === 'first-pick');
  const picked = facts?.first_picked ?? (first && first.probability > 0 ? first.p50 : null);
  const days = [planned, picked].flatMap((day) => (day ? [parseDay(day)] : []));
  return days.length > 0 ? Math.max(...days) : undefined;
}
