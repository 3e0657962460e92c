import { describe, expect, it } from 'vitest';
import type { Bed } from '../src/api/types';
import { lengthIn } from '../src/domain/bedLength';
import { makeStand } from './helpers';

const bed = (id: string, width_m: number): Bed => ({
  id,
  name: id,
  length_m: 9,
  width_m,
  sun: 'full',
  kind: 'raised',
});
const beds = [bed('long', 1.2), bed('same', 1.2), bed('half', 0.6), bed('strip', 0.2), bed('thread', 0.14)];
const inBed = (stand: ReturnType<typeof makeStand>) =>
  beds.map((each) => Number(lengthIn(stand, each, beds).toFixed(6)));

describe('the length of a stand in another bed', () => {
  it('is what its clumps take there, and its own in a bed of its width or where none fits', () => {
    const leeks = makeStand({ clumps: 25, spacing_mm: 300, to_m: 2 });
    expect(inBed(leeks)).toEqual([2, 2, 3.75, 7.5, 2]);
  });
  it('counts rows by their own distance, and is half a row at least', () => {
    expect(inBed(makeStand({ clumps: 30, spacing_mm: 50, row_spacing_mm: 300 }))[2]).toBe(0.75);
    expect(inBed(makeStand({ clumps: 1, spacing_mm: 100 }))[2]).toBe(0.05);
  });
});
