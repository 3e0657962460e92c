// What a stand takes of the length of a bed, as the program reckons it.

import type { Bed, Stand } from '../api/types';

/** Rows side by side across a bed: one where the bed is half as wide as their distance, none where it is narrower still. */
export function rowsAcross(widthM: number, apartMm: number): number {
  const fit = (widthM * 1000) / apartMm + 1e-9;
  return fit >= 1 ? Math.floor(fit) : fit >= 0.5 ? 1 : 0;
}

/**
 * Metres that the stand takes of a bed: what it has where the bed is as wide as its own, else what its clumps need there.
 * Where none fits across it stays as it is, for the program to refuse.
 */
export function lengthIn(stand: Stand, bed: Bed, beds: Bed[]): number {
  const asItIs = stand.to_m - stand.from_m;
  const own = beds.find((each) => each.id === stand.bed);
  const across = rowsAcross(bed.width_m, stand.row_spacing_mm ?? stand.spacing_mm);
  if (!own || own.width_m === bed.width_m || across === 0) return asItIs;
  return Math.ceil(stand.spacing_mm * Math.max(stand.clumps / across, 0.5) - 1e-9) / 1000;
}
