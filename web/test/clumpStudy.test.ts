import { describe, expect, it } from 'vitest';
import type { PictureDay, StandPicture } from '../src/api/types';
import { columnsOf, drawnDiameterMm, drawPlants, isBeforePart, studyLayout } from '../src/drawing/clumpStudy';

const day = (
  weight_g: number[],
  across: (number | null)[] = weight_g.map(() => null),
  stands = weight_g.map((grams) => grams > 0),
): PictureDay => ({
  date: '2027-06-01',
  plant_g: { p10: 0, p50: 0, p90: 0 },
  one_plant_g: { p10: 0, p50: 0, p90: 0 },
  standing_plants: 0,
  classes: { too_small: 0, small: 0, large: 0, over_size: 0 },
  stands,
  weight_g,
  plant_diameter_mm: across,
});
const picture = {
  clumps: 2,
  plants_per_clump: 2,
  spacing_mm: 200,
  part: 'root',
  open_sides: [0, 0],
} as StandPicture;
const layout = studyLayout(picture, { spacing_mm: 200 });

describe('a plant to scale', () => {
  it('is as wide as its own measure, else as a ball of its weight', () => {
    expect(drawnDiameterMm(136, 60, false)).toBe(60);
    // A ball of water 60 mm across weighs 113.1 g.
    expect(drawnDiameterMm(113.1, null, false)).toBeCloseTo(60, 1);
    expect(drawnDiameterMm(113.1, null, true)).toBeGreaterThan(60);
    expect(drawnDiameterMm(0, null, false)).toBe(0);
  });
});

describe('how the sample lies', () => {
  const at = (open_sides: number[], stand: Parameters<typeof studyLayout>[1]) =>
    studyLayout({ clumps: open_sides.length, open_sides }, stand);
  it('has rows as far apart as was told', () => {
    const rows = at(Array(12).fill(0), { spacing_mm: 80, arrangement: 'rows', row_spacing_mm: 300 });
    expect(rows.widthMm).toBe(5 * 80);
    expect(rows.heightMm).toBe(3 * 300);
    expect(rows.middles[5]).toEqual({ x: 40, y: 450 });
  });
  it('moves every second row by half where they are offset', () => {
    const offset = at(Array(8).fill(0), { spacing_mm: 100, arrangement: 'offset', row_spacing_mm: 87 });
    expect(offset.middles[0]).toEqual({ x: 50, y: 43.5 });
    expect(offset.middles[4]).toEqual({ x: 100, y: 130.5 });
    expect(offset.widthMm).toBe(450);
  });
  it('has the clumps of the edge in the outer rows', () => {
    // Every second of twelve, as in a bed of four rows.
    const open = Array.from({ length: 12 }, (_, i) => i % 2);
    const { middles, heightMm } = at(open, { spacing_mm: 100 });
    expect(heightMm).toBe(400);
    middles.forEach(({ y }, i) => expect(y === 50 || y === 350).toBe(open[i] === 1));
    expect(new Set(middles.map(({ x, y }) => `${x} ${y}`)).size).toBe(12);
  });
  it('is one row where the bed has one, two where it has two', () => {
    expect(at([2, 2, 2], { spacing_mm: 100 }).heightMm).toBe(100);
    expect(at([1, 1, 1, 1], { spacing_mm: 100 }).heightMm).toBe(200);
  });
});

describe('the sample of clumps', () => {
  it('is about twice as wide as high', () => {
    expect([1, 2, 8, 12, 18].map(columnsOf)).toEqual([1, 2, 4, 5, 6]);
  });
  it('draws each standing plant once, inside the square of its clump', () => {
    const plants = drawPlants(picture, layout, day([80, 0, 40, 60], [50, null, 40, 45]), null);
    expect(plants.map((each) => [each.clump, each.plant])).toEqual([
      [0, 0],
      [0, 1],
      [1, 1],
    ]);
    for (const plant of plants) {
      expect(plant.taken).toBe(false);
      expect(plant.x).toBeGreaterThan(plant.clump * 200);
      expect(plant.x).toBeLessThan((plant.clump + 1) * 200);
    }
    const [a, b] = plants;
    expect(Math.hypot(a!.x - b!.x, a!.y - b!.y)).toBeGreaterThanOrEqual(25);
  });
  it('draws what is up though it weighs nothing yet, and not what is gone', () => {
    const young = day([0, 0, 0, 0], undefined, [true, true, false, true]);
    expect(
      drawPlants(picture, layout, young, null).map((each) => [each.clump, each.plant, each.taken]),
    ).toEqual([
      [0, 0, false],
      [1, 0, false],
      [1, 1, false],
    ]);
    const thinned = day([0, 0, 0, 0], undefined, [true, false, false, true]);
    expect(drawPlants(picture, layout, young, thinned).map((each) => each.taken)).toEqual([
      false,
      true,
      false,
    ]);
  });
  it('marks what is taken out and shows the rest as it is afterwards', () => {
    const plants = drawPlants(picture, layout, day([80, 70, 40, 60]), day([0, 0, 55, 66]));
    expect(plants.filter((each) => each.taken).map((each) => each.grams)).toEqual([80, 70]);
    expect(plants.filter((each) => !each.taken).map((each) => each.grams)).toEqual([55, 66]);
  });
});

describe('a stand before its harvested part', () => {
  const at = (standing_plants: number, p50: number): PictureDay => ({
    ...day([]),
    standing_plants,
    plant_g: { p10: 0, p50, p90: p50 },
  });
  it('stands and weighs nothing worth a word', () => {
    expect(isBeforePart(at(96, 0))).toBe(true);
    expect(isBeforePart(at(96, 0.1))).toBe(true);
    expect(isBeforePart(at(96, 0.5))).toBe(false);
  });
  it('is not where nothing stands', () => {
    expect(isBeforePart(at(0, 0))).toBe(false);
  });
});
