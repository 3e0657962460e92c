import { describe, expect, it } from 'vitest';
import { parseDay } from '../src/domain/days';
import { drawableWidth } from '../src/drawing/drawableWidth';
import { spacedMonths } from '../src/drawing/fan';

describe('the width of a drawing', () => {
  it('stays drawable while its box is hidden', () => {
    expect(drawableWidth(0)).toBeGreaterThan(100);
    expect(drawableWidth(undefined)).toBeGreaterThan(100);
    expect(drawableWidth(null)).toBeGreaterThan(100);
    expect(drawableWidth(742)).toBe(742);
  });
});

describe('names of months', () => {
  const first = parseDay('2027-01-10');
  const last = parseDay('2027-12-28');
  it('neither overlap nor leave the frame, however narrow', () => {
    for (const width of [160, 300, 700, 1200]) {
      const xOf = (day: number) => ((day - first) / (last - first)) * width;
      const at = spacedMonths(first, last, xOf, width).map(xOf);
      expect(at.length).toBeGreaterThan(2);
      at.forEach((x, i) => expect(x - (at[i - 1] ?? -34)).toBeGreaterThanOrEqual(i === 0 ? 0 : 34));
      expect(at[0]).toBeGreaterThanOrEqual(17);
      expect(at.at(-1)).toBeLessThanOrEqual(width - 17);
    }
  });
});
