// What a re-plan changed: stands of before and after, paired by crop and sowing.

import type { Stand } from '../api/types';
import { beginsOn } from './season';

export interface PlanChange {
  kind: 'same' | 'changed' | 'new' | 'gone';
  before: Stand | null;
  after: Stand | null;
}

const samePlace = (a: Stand, b: Stand) =>
  a.bed === b.bed && Math.abs(a.from_m - b.from_m) < 0.01 && Math.abs(a.to_m - b.to_m) < 0.01;
const sameStand = (a: Stand, b: Stand) =>
  samePlace(a, b) &&
  a.sow === b.sow &&
  a.clumps === b.clumps &&
  a.method === b.method &&
  a.tray === b.tray &&
  a.variety === b.variety &&
  (a.pick_weeks ?? 0) === (b.pick_weeks ?? 0) &&
  (a.pick_from ?? null) === (b.pick_from ?? null);

/** Days between sowings, and a little for another bed: how unlike two stands of a crop are. */
function unlikeness(a: Stand, b: Stand): number {
  const kOtherBedDays = 10;
  return Math.abs(beginsOn(a) - beginsOn(b)) + (a.bed === b.bed ? 0 : kOtherBedDays);
}

/** Farther apart than this they are two sowings, not one that moved. */
const kMostUnlike = 45;

/**
 * Pairs what was planned with what is planned now, the most alike of each crop first; what is sown is no part of a plan
 * and left out. In order of sowing.
 */
export function planChanges(before: Stand[], after: Stand[]): PlanChange[] {
  const planned = (stands: Stand[]) => stands.filter((stand) => stand.state === 'planned');
  const left = new Set(planned(before));
  const right = new Set(planned(after));
  const pairs = [...left]
    .flatMap((a) =>
      [...right].filter((b) => b.crop === a.crop).map((b) => ({ a, b, cost: unlikeness(a, b) })),
    )
    .filter((pair) => pair.cost <= kMostUnlike)
    .sort((p, q) => p.cost - q.cost);
  const changes: PlanChange[] = [];
  for (const { a, b } of pairs) {
    if (!left.has(a) || !right.has(b)) continue;
    left.delete(a);
    right.delete(b);
    changes.push({ kind: sameStand(a, b) ? 'same' : 'changed', before: a, after: b });
  }
  for (const a of left) changes.push({ kind: 'gone', before: a, after: null });
  for (const b of right) changes.push({ kind: 'new', before: null, after: b });
  const dayOf = ({ before: was, after: is }: PlanChange) => beginsOn((is ?? was)!);
  return changes.sort((p, q) => dayOf(p) - dayOf(q));
}
