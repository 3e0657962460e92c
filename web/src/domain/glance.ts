// What a look at the whole garden tells on a day: what is ready, what is sown next, what is up next.

import type { Stand } from '../api/types';
import type { Day } from './days';
import { beginsOn, eventDay, readyOn } from './season';

/** More than this would be a list, not a glance. */
const kMost = 4;
const kReady = 0.5;

export interface Glance {
  ready: { stand: Stand; share: number }[];
  /** To sow, or to buy and set out. */
  sow: { stand: Stand; day: Day }[];
  /** First picks to come, by their middle day. */
  pick: { stand: Stand; day: Day }[];
}

const soonest = (entries: { stand: Stand; day: Day }[], today: Day) =>
  entries
    .filter((entry) => entry.day >= today)
    .sort((a, b) => a.day - b.day)
    .slice(0, kMost);

export function glanceAt(stands: Stand[], today: Day): Glance {
  const grown = stands.filter((stand) => stand.state !== 'planned' && stand.state !== 'finished');
  const ready = grown
    .map((stand) => ({ stand, share: readyOn(stand, today) }))
    .filter((entry) => entry.share >= kReady)
    .sort((a, b) => b.share - a.share);
  return {
    ready: ready.slice(0, kMost),
    sow: soonest(
      stands.filter((stand) => stand.state === 'planned').map((stand) => ({ stand, day: beginsOn(stand) })),
      today,
    ),
    pick: soonest(
      grown
        .filter((stand) => readyOn(stand, today) < kReady)
        .map((stand) => ({ stand, day: eventDay(stand, 'first-pick', 'p50') })),
      today,
    ),
  };
}
