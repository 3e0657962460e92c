// From when on what waits in the ground is pulled, and over how many weeks.

import type { Pulled } from '../api/types';
import { parseDay, type Day } from './days';

const kWeekDays = 7;

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

/** Over how many weeks from then on it is picked in most years: the plan's, or as many as its end leaves of them. */
export function pulledWeeks(stand: Pulled): number {
  const planned = stand.pick_weeks ?? 0;
  const from = pulledFrom(stand);
  const last = stand.events?.find((event) => event.name === 'last-pick');
  if (from === undefined || !last?.p50 || last.probability <= 0) return planned;
  const weeks = Math.ceil((parseDay(last.p50) - from) / kWeekDays);
  return Math.max(Math.min(1, planned), Math.min(planned, weeks));
}
