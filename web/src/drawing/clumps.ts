// The stretch of a stand from above, to scale: where each clump sits.

import type { Stand } from '../api/types';

export interface ClumpPlace {
  /** Metres along the bed from the start of the stretch, and across it. */
  alongM: number;
  acrossM: number;
}

/** More than this many are drawn as the first so many: the picture stays light. */
export const kMostClumpsDrawn = 600;

/**
 * Clumps in rows across the bed, evenly spread: as many in a row as the spacing allows, the last row part full.
 * Alternate rows are not shifted: that is how the length a stand takes is reckoned.
 */
export function clumpPlaces(
  stand: Pick<Stand, 'clumps' | 'spacing_mm' | 'from_m' | 'to_m'>,
  widthM: number,
): ClumpPlace[] {
  const spacingM = stand.spacing_mm / 1000;
  const across = Math.max(1, Math.floor(widthM / spacingM + 1e-9));
  const rows = Math.max(1, Math.ceil(stand.clumps / across));
  const lengthM = stand.to_m - stand.from_m;
  const rowStep = lengthM / rows;
  const places: ClumpPlace[] = [];
  for (let i = 0; i < Math.min(stand.clumps, kMostClumpsDrawn); i += 1) {
    places.push({
      alongM: (Math.floor(i / across) + 0.5) * rowStep,
      acrossM: ((i % across) + 0.5) * (widthM / across),
    });
  }
  return places;
}

/** Share of its final middle weight that a plant has on a day, 0..1; 0 before it is up. */
export function shareGrown(fan: { first: number; p50: number[] }, day: number): number {
  const final = Math.max(...fan.p50, 0);
  if (final <= 0 || day < fan.first) return 0;
  return (fan.p50[Math.min(fan.p50.length - 1, Math.floor(day - fan.first))] ?? 0) / final;
}
