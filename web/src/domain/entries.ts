// Which entries of the log count.

import type { GardenEvent } from '../api/types';

/**
 * The entries that stand, the newest day first and of one day the last written: what was sent and what waits, without
 * corrections and without what they take back. A correction of a correction brings its target back.
 */
export function standingEntries(sent: GardenEvent[], waiting: GardenEvent[]): GardenEvent[] {
  const ids = new Set(sent.map((event) => event.id));
  const all = [...sent, ...waiting.filter((event) => !ids.has(event.id))];
  const undone = new Set<string>();
  // A correction names an earlier entry, so from the last on each is known to stand or not.
  for (const event of all.toReversed())
    if (event.kind === 'corrected' && event.target && !undone.has(event.id)) undone.add(event.target);
  return all
    .filter((event) => event.kind !== 'corrected' && !undone.has(event.id))
    .map((event, arrival) => ({ event, arrival }))
    .sort((a, b) => b.event.date.localeCompare(a.event.date) || b.arrival - a.arrival)
    .map(({ event }) => event);
}
