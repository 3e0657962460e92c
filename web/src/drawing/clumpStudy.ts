// A sample of clumps from above, each in its square of ground, its plants as large as they should be.

import type { PictureDay, StandPicture } from '../api/types';

export interface DrawnPlant {
  clump: number;
  plant: number;
  /** Millimetres from the top left corner of the drawing. */
  x: number;
  y: number;
  radius: number;
  grams: number;
  /** True when this plant stands before but not after taking some out. */
  taken: boolean;
}

/** Fresh weight per volume of a round root or head, g/cm³: water, to the eye (from memory). */
const kGramsPerCm3 = 1;
/** A leafy plant spreads wider than a ball of its weight; drawn so much wider (common practice, to the eye). */
const kLeafSpread = 2.2;

/** How wide to draw a plant of a weight, mm: its own measure where there is one, else as a ball of its weight. */
export function drawnDiameterMm(grams: number, measuredMm: number | null, leafy: boolean): number {
  if (measuredMm !== null && measuredMm > 0) return measuredMm;
  if (grams <= 0) return 0;
  const ballMm = 20 * Math.cbrt((3 * grams) / (4 * Math.PI * kGramsPerCm3));
  return leafy ? ballMm * kLeafSpread : ballMm;
}

/** Columns that make the sample about twice as wide as high. */
export function columnsOf(clumps: number): number {
  return Math.max(1, Math.min(clumps, Math.ceil(Math.sqrt(clumps * 2))));
}

/** What an average plant has at least when its harvested part is worth a word: half a gram reads as none. */
const kLeastToldG = 0.5;

/** Whether plants stand of which nothing is there yet that will be harvested. */
export const isBeforePart = (day: PictureDay): boolean =>
  day.standing_plants >= 0.5 && day.plant_g.p50 < kLeastToldG;

/**
 * The plants of one day. Plants of a clump sit on a small ring about its middle, so that they touch as in the ground;
 * `after` is the same day with some taken out.
 */
export function drawPlants(picture: StandPicture, day: PictureDay, after: PictureDay | null): DrawnPlant[] {
  const columns = columnsOf(picture.clumps);
  const leafy = picture.part === 'leaf' || picture.part === 'herb' || picture.part === 'stem';
  const plants: DrawnPlant[] = [];
  for (let clump = 0; clump < picture.clumps; clump += 1) {
    const middleX = ((clump % columns) + 0.5) * picture.spacing_mm;
    const middleY = (Math.floor(clump / columns) + 0.5) * picture.spacing_mm;
    const members: Omit<DrawnPlant, 'x' | 'y'>[] = [];
    for (let plant = 0; plant < picture.plants_per_clump; plant += 1) {
      const at = plant * picture.clumps + clump;
      if (!day.stands[at]) continue;
      const stays = after === null || after.stands[at] === true;
      const shown = after && stays ? after : day;
      const radius = drawnDiameterMm(shown.weight_g[at] ?? 0, shown.plant_diameter_mm[at] ?? null, leafy) / 2;
      members.push({
        clump,
        plant,
        radius,
        grams: shown.weight_g[at] ?? 0,
        taken: !stays,
      });
    }
    const ring = members.length > 1 ? Math.max(...members.map((each) => each.radius)) : 0;
    members.forEach((each, i) => {
      const angle = (i / Math.max(1, members.length)) * 2 * Math.PI + clump * 1.3;
      plants.push({ ...each, x: middleX + ring * Math.cos(angle), y: middleY + ring * Math.sin(angle) });
    });
  }
  return plants;
}
