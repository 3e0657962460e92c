// Moving a planned stand: in time by whole days, in space along a bed or to another.

import type { Bed, Stand } from '../api/types';
import { isoDay, parseDay, type Day } from './days';
import { bedStay, beginsOn, type Stay } from './season';

/** What the server is asked to change; the same for trying and for keeping. */
export interface Move {
  bed: string;
  from_m: number;
  to_m: number;
  sow: string;
  set_out: string | null;
}

/** Only what is still to be done can be moved. */
export const canMove = (stand: Stand): boolean => stand.state === 'planned';

/** Places are whole steps of this length: nearer cannot be pointed at. */
const kStepM = 0.05;

/** Where a stand is now, in the form of a move: what an undo puts back. */
export function placeOf(stand: Stand): Move {
  return { bed: stand.bed, from_m: stand.from_m, to_m: stand.to_m, sow: stand.sow, set_out: stand.set_out };
}

/** Whether a move can be undone: a day of beginning that is past cannot be planned again. */
export const canGoBackTo = (before: Stand, today: Day): boolean => beginsOn(before) >= today;

/**
 * The move of a stand by some days and to a place, kept inside the bed and never begun before today. A day of
 * setting out that was decided goes along with the sowing. In a bed of another width it has another length.
 */
export function moveBy(
  stand: Stand,
  days: number,
  bed: Bed,
  fromM: number,
  today: Day,
  lengthM = stand.to_m - stand.from_m,
): Move {
  const begins = beginsOn(stand);
  const shift = Math.max(today, begins + days) - begins;
  const lastFrom = Math.max(0, bed.length_m - lengthM);
  const snapped = Math.round(Math.round(fromM / kStepM) * kStepM * 100) / 100;
  // Moved in time alone it keeps its place to the millimetre: the planner's places lie between the steps, and the next
  // stand begins where this one ends.
  const stays = bed.id === stand.bed && Math.abs(fromM - stand.from_m) < kStepM / 2;
  const from = stays ? stand.from_m : Math.max(0, Math.min(lastFrom, snapped));
  return {
    bed: bed.id,
    from_m: from,
    to_m: stays ? stand.to_m : from + lengthM,
    sow: isoDay(parseDay(stand.sow) + shift),
    set_out: stand.set_out === null ? null : isoDay(parseDay(stand.set_out) + shift),
  };
}

export const sameMove = (a: Move, b: Move): boolean =>
  a.bed === b.bed && Math.abs(a.from_m - b.from_m) < 1e-9 && a.sow === b.sow && a.set_out === b.set_out;

/**
 * The stays that need the same room as this one on a day when both are sure to be there. What is over holds nothing
 * off, nor does it on its last day: ground is cleared and sown in one day.
 */
export function collisions(stay: Stay, stays: Stay[]): Stay[] {
  return stays.filter(
    (other) =>
      other.where === 'bed' &&
      other.stand.state !== 'finished' &&
      other.stand.id !== stay.stand.id &&
      other.place === stay.place &&
      other.stand.from_m < stay.stand.to_m - 1e-6 &&
      stay.stand.from_m < other.stand.to_m - 1e-6 &&
      other.first <= stay.mayLeave &&
      stay.first <= other.mayLeave,
  );
}

/**
 * The stays that a move would newly stand on. Those that it stands on already do not count: a stand whose place turned
 * out to be still taken must be free to go.
 */
export function newCollisions(after: Stay, before: Stay | null, stays: Stay[]): Stay[] {
  const already = new Set(before ? collisions(before, stays).map((each) => each.stand.id) : []);
  return collisions(after, stays).filter((each) => !already.has(each.stand.id));
}

/** What a stand would newly stand on where a move puts it. */
export function inTheWay(after: Stand, before: Stand | undefined, stays: Stay[], today: Day): Stay[] {
  const stay = bedStay(after, today);
  return stay ? newCollisions(stay, before ? bedStay(before, today) : null, stays) : [];
}

const shiftedText = (text: string | null, days: number): string | null =>
  text === null ? null : isoDay(parseDay(text) + days);

/**
 * The stand as it would be if all its days went along with its sowing: shown at once while the server works out what the
 * other season really does to it.
 */
export function shiftedStand(stand: Stand, move: Move): Stand {
  const days = parseDay(move.sow) - parseDay(stand.sow);
  if (days === 0) return { ...stand, ...move };
  return {
    ...stand,
    ...move,
    events: stand.events.map((event) => ({
      ...event,
      p10: shiftedText(event.p10, days),
      p50: shiftedText(event.p50, days),
      p90: shiftedText(event.p90, days),
    })),
    weeks: stand.weeks.map((week) => ({ ...week, week_start: isoDay(parseDay(week.week_start) + days) })),
    ready_daily: { ...stand.ready_daily, first: isoDay(parseDay(stand.ready_daily.first) + days) },
  };
}
