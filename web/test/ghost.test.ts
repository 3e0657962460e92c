import { describe, expect, it } from 'vitest';
import type { Bed } from '../src/api/types';
import { ghostOf } from '../src/drawing/ghost';
import { notchPath } from '../src/drawing/notches';
import { layOut } from '../src/drawing/sheetLayout';
import { makeStay, parseDay } from './helpers';

const beds: Bed[] = ['long', 'short'].map((id, i) => ({
  id,
  name: id,
  length_m: i === 0 ? 6 : 3,
  width_m: 1.2,
  sun: 'full',
  kind: 'raised',
}));
const today = parseDay('2027-03-01');
const stay = makeStay('s1', '2027-04-01', '2027-06-30', { from_m: 1, to_m: 2 });
const layout = layOut(beds, [], [stay], today, 34);
const patch = layout.patches[0]!;
const [long, short] = layout.bands;

describe('the outline of a stand that is dragged', () => {
  it('lies where the move would put it, to the step of moves', () => {
    const ghost = ghostOf(patch, { days: 5, yPx: 34 * 1.98, pointedAt: long! }, layout.bands, beds, today)!;
    expect(ghost.move).toMatchObject({ bed: 'long', from_m: 3, to_m: 4, sow: '2027-04-06' });
    expect(ghost.fromDay).toBe(patch.fromDay + 5);
    expect(ghost.y).toBeCloseTo(long!.top + 3 * 34);
    expect(ghost.height).toBeCloseTo(34);
  });
  it('goes over to the bed under the pointer, and home where that is none', () => {
    const over = { days: 0, yPx: short!.top - long!.top, pointedAt: short! };
    expect(ghostOf(patch, over, layout.bands, beds, today)!.move).toMatchObject({ bed: 'short', from_m: 1 });
    expect(ghostOf(patch, { ...over, pointedAt: null }, layout.bands, beds, today)!.move.bed).toBe('long');
  });
  it('is as long as its clumps need in a bed of another width', () => {
    const narrow = beds.map((bed) => (bed.id === 'short' ? { ...bed, width_m: 0.4 } : bed));
    const over = { days: 0, yPx: short!.top - long!.top, pointedAt: short! };
    const ghost = ghostOf(patch, over, layout.bands, narrow, today)!;
    // Ten clumps 100 mm apart, four across.
    expect(ghost.move.to_m - ghost.move.from_m).toBeCloseTo(0.25, 9);
    expect(ghost.height).toBeCloseTo(34 * 0.25);
  });
  it('stops at today', () => {
    const ghost = ghostOf(patch, { days: -400, yPx: 0, pointedAt: long! }, layout.bands, beds, today)!;
    expect(ghost.move.sow).toBe('2027-03-01');
    expect(ghost.fromDay).toBe(patch.fromDay - 31);
  });
  it('is nothing where the bed is not in the garden', () => {
    expect(ghostOf(patch, { days: 0, yPx: 0, pointedAt: null }, layout.bands, [], today)).toBeNull();
  });
});

describe('the notches of first picks', () => {
  it('stand at the three quantiles, the middle one longer, and not outside the patch', () => {
    const path = notchPath([patch], today);
    const across = [...path.matchAll(/M([\d.]+) /g)].map((match) => Number(match[1]));
    expect(across).toEqual(
      ['2027-06-01', '2027-06-08', '2027-06-20'].map((day) => parseDay(day) - today + 0.5),
    );
    const cut = layOut(beds, [], [makeStay('s2', '2027-04-01', '2027-06-10')], today, 34).patches;
    expect(notchPath(cut, today).match(/M/g)).toHaveLength(2);
  });
});
