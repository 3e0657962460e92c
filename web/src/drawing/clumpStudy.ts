// A sample of clumps from above, set as in the bed, each in its ground, its plants as large as they should be.

import { rowDistanceMm } from './clumps';
import type { PictureDay, Stand, StandPicture } from '../api/types';

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

type Setting = Pick<Stand, 'spacing_mm' | 'arrangement' | 'row_spacing_mm'>;
type Sample = Pick<StandPicture, 'clumps' | 'open_sides'>;

export interface StudyLayout {
  /** Middle of each clump, millimetres from the top left corner. */
  middles: { x: number; y: number }[];
  /** Ground of a clump along and across its row. */
  alongMm: number;
  acrossMm: number;
  widthMm: number;
  heightMm: number;
}

/**
 * How many clumps lie side by side, and of those at the edge how many in the upper row; the others are in the lowest. A
 * sample of which the edge holds few shows one edge only, so that it does not become a tower.
 */
function edgeRows(clumps: number, edges: number, sides: number): { columns: number; upper: number } {
  if (edges === 0) return { columns: columnsOf(clumps), upper: 0 };
  if (edges === clumps) {
    const columns = sides > 1 ? clumps : Math.ceil(clumps / 2);
    return { columns, upper: columns };
  }
  const half = Math.ceil(edges / 2);
  const columns = half * half * 2 >= clumps ? half : edges;
  return { columns, upper: columns };
}

/** Where the clumps of a sample lie: rows along the picture, those at the edge of the bed in its outer rows. */
export function studyLayout({ clumps, open_sides: open }: Sample, stand: Setting): StudyLayout {
  const all = Array.from({ length: clumps }, (_, i) => i);
  const edge = all.filter((i) => (open[i] ?? 0) > 0);
  const { columns, upper } = edgeRows(clumps, edge.length, Math.max(0, ...open));
  const lower = edge.slice(upper);
  const inner = all.filter((i) => (open[i] ?? 0) === 0);
  const innerRows = Math.ceil(inner.length / columns);
  const firstRow = upper > 0 ? 1 : 0;
  const alongMm = stand.spacing_mm;
  const acrossMm = rowDistanceMm(stand);
  const middles: { x: number; y: number }[] = [];
  const shift = (row: number) => (stand.arrangement === 'offset' && row % 2 === 1 ? 0.5 : 0);
  const place = (clump: number, row: number, column: number) =>
    (middles[clump] = { x: (column + 0.5 + shift(row)) * alongMm, y: (row + 0.5) * acrossMm });
  edge.slice(0, upper).forEach((clump, i) => place(clump, 0, i));
  inner.forEach((clump, i) => place(clump, firstRow + Math.floor(i / columns), i % columns));
  lower.forEach((clump, i) => place(clump, firstRow + innerRows, i));
  const rows = firstRow + innerRows + (lower.length > 0 ? 1 : 0);
  const moved = stand.arrangement === 'offset' && rows > 1 ? 0.5 : 0;
  return { middles, alongMm, acrossMm, widthMm: (columns + moved) * alongMm, heightMm: rows * acrossMm };
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
export function drawPlants(
  picture: StandPicture,
  layout: StudyLayout,
  day: PictureDay,
  after: PictureDay | null,
): DrawnPlant[] {
  const leafy = picture.part === 'leaf' || picture.part === 'herb' || picture.part === 'stem';
  const plants: DrawnPlant[] = [];
  for (let clump = 0; clump < picture.clumps; clump += 1) {
    const { x: middleX, y: middleY } = layout.middles[clump] ?? { x: 0, y: 0 };
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
