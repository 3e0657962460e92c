// What grew where before: entries of a family on a stretch of a bed.

import type { PastCrop, SetupBed } from '../api/types';

/** The families known to the crops, and those that are written down already; each once. */
export const familiesOf = (crops: { family: string }[], past: PastCrop[]): string[] => [
  ...new Set([...crops, ...past].map((each) => each.family)),
];

/** A first entry, to be changed: the whole bed, last year. */
export const newPast = (bed: SetupBed, family: string, thisYear: number): PastCrop => ({
  bed: bed.id ?? '',
  from_m: 0,
  to_m: bed.length_m,
  family,
  year: thisYear - 1,
});

/** An end of the stretch set: inside the bed, and a step of length left at the least. */
export function stretchSet(
  { from_m, to_m }: PastCrop,
  end: 'from_m' | 'to_m',
  atM: number,
  bedLengthM = Infinity,
  stepM = 0,
): Pick<PastCrop, 'from_m' | 'to_m'> {
  if (end === 'from_m') return { from_m: Math.max(0, Math.min(atM, to_m - stepM)), to_m };
  return { from_m, to_m: Math.min(bedLengthM, Math.max(atM, from_m + stepM)) };
}
