// Which stretches of a bed are free, and until when.

import type { Day } from './days';
import type { Stay } from './season';

export interface FreeStretch {
  fromM: number;
  toM: number;
  /** The next day any part of the stretch is taken; nothing when it stays free as far as is known. */
  until: Day | null;
}

/** Shorter gaps than this are of no use to anyone, in metres. */
const kShortestGapM = 0.05;

/** Stretches of a bed that no stay takes on a day, from the start of the bed on. */
export function freeStretches(lengthM: number, stays: Stay[], day: Day): FreeStretch[] {
  const taken = stays
    .filter((stay) => stay.first <= day && day <= stay.last)
    .map((stay) => ({ from: Math.max(0, stay.stand.from_m), to: Math.min(lengthM, stay.stand.to_m) }))
    .sort((a, b) => a.from - b.from);
  const free: FreeStretch[] = [];
  let at = 0;
  for (const stretch of [...taken, { from: lengthM, to: lengthM }]) {
    if (stretch.from - at >= kShortestGapM) free.push({ fromM: at, toM: stretch.from, until: null });
    at = Math.max(at, stretch.to);
  }
  for (const gap of free) gap.until = nextTaken(gap, stays, day);
  return free;
}

function nextTaken(gap: FreeStretch, stays: Stay[], day: Day): Day | null {
  let next: Day | null = null;
  for (const stay of stays) {
    const touches = stay.stand.from_m < gap.toM - 1e-9 && stay.stand.to_m > gap.fromM + 1e-9;
    if (touches && stay.first > day && (next === null || stay.first < next)) next = stay.first;
  }
  return next;
}
