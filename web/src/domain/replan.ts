// What a re-plan changed: stands of before and after, paired by their ids, which a plan keeps for what it keeps.

import type { Bed, Stand } from '../api/types';
import { beginsOn } from './season';

export interface PlanChange {
  kind: 'same' | 'changed' | 'new' | 'gone';
  before: Stand | null;
  after: Stand | null;
}

/** Pushed along its bed by less than this share of the bed's length a stand is where it was: chosen. */
const kSamePlaceShare = 0.1;

const samePlace = (a: Stand, b: Stand, lengthM: number) =>
  a.bed === b.bed && Math.abs(a.from_m - b.from_m) <= kSamePlaceShare * lengthM;
const sameStand = (a: Stand, b: Stand, lengthM: number) =>
  samePlace(a, b, lengthM) &&
  a.sow === b.sow &&
  a.clumps === b.clumps &&
  a.method === b.method &&
  a.tray === b.tray &&
  a.variety === b.variety &&
  (a.pick_weeks ?? 0) === (b.pick_weeks ?? 0) &&
  (a.pick_from ?? null) === (b.pick_from ?? null);

/** What was planned beside what is planned now; what is sown is no part of a plan and left out. In order of sowing. */
export function planChanges(
  before: Stand[],
  after: Stand[],
  beds: Pick<Bed, 'id' | 'length_m'>[],
): PlanChange[] {
  const planned = (stands: Stand[]) => stands.filter((stand) => stand.state === 'planned');
  const now = new Map(planned(after).map((stand) => [stand.id, stand]));
  const lengthOf = (id: string) => beds.find((bed) => bed.id === id)?.length_m ?? 0;
  const changes: PlanChange[] = planned(before).map((was) => {
    const is = now.get(was.id);
    if (is?.crop !== was.crop) return { kind: 'gone', before: was, after: null };
    now.delete(was.id);
    return { kind: sameStand(was, is, lengthOf(was.bed)) ? 'same' : 'changed', before: was, after: is };
  });
  for (const is of now.values()) changes.push({ kind: 'new', before: null, after: is });
  const dayOf = ({ before: was, after: is }: PlanChange) => beginsOn((is ?? was)!);
  return changes.sort((p, q) => dayOf(p) - dayOf(q));
}
