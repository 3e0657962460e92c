import { describe, expect, it } from 'vitest';
import {
  inFeet,
  isTrace,
  length,
  metresPerUnit,
  rulerMarks,
  spacing,
  volume,
  weight,
  weightMarks,
} from '../src/domain/units';

describe('amounts', () => {
  // International yard and pound agreement of 1959: 1 lb = 453.59237 g, 1 ft = 0.3048 m, 1 in = 25.4 mm.
  it('says pounds, feet and inches by their exact definition', () => {
    expect(weight(907.18474, 'us')).toMatchObject({ value: 2, unit: 'lb' });
    expect(weight(28.349523125, 'us')).toMatchObject({ value: 1, unit: 'oz' });
    expect(length(3.048, 'us')).toEqual([{ value: 10, unit: 'ft', digits: 0 }]);
    expect(spacing(76.2, 'us').value).toBeCloseTo(3, 12);
    expect(spacing(35.5, 'metric')).toEqual({ value: 3.55, unit: 'cm', digits: 1 });
    expect(spacing(190.5, 'metric').digits).toBe(0);
  });
  it('asks for heights above the sea in feet where feet are read', () => {
    expect(100 * metresPerUnit('us')).toBeCloseTo(30.48, 12);
    expect(metresPerUnit('metric')).toBe(1);
  });
  it('says water in gallons, by the exact definition', () => {
    // US liquid gallon of 231 cubic inches: 3.785411784 L (NIST Handbook 44, appendix C).
    expect(volume(37.85411784, 'us')).toEqual({ value: 10, unit: 'gal', digits: 0 });
    expect(volume(7.5, 'metric')).toEqual({ value: 7.5, unit: 'L', digits: 1 });
  });
  it('changes to kilograms at a thousand grams', () => {
    expect(weight(999.4, 'metric').unit).toBe('g');
    expect(weight(999.6, 'metric').unit).toBe('kg');
    expect(weight(1000, 'metric')).toMatchObject({ value: 1, unit: 'kg' });
  });
  it('marks an axis of weights so that no two marks read the same', () => {
    const digits = (ounces: number[]) =>
      weightMarks(
        ounces.map((each) => each * 28.349523125),
        'us',
      ).map((each) => each.digits);
    expect(digits([0, 0.5, 1, 1.5, 2])).toEqual([1, 1, 1, 1, 1]);
    expect(digits([0, 2, 4, 6])).toEqual([0, 0, 0, 0]);
  });
  it('tells a stretch of bed to the centimetre, as narrow sowings lie side by side', () => {
    expect(length(0.13, 'metric')).toEqual([{ value: 0.13, unit: 'm', digits: 2 }]);
    for (const edge of [1.845, 1.8450000000000002, 1.8449999999999998])
      expect(length(edge, 'metric')).toEqual([{ value: 1.85, unit: 'm', digits: 2 }]);
  });
  it('counts inches up to a yard, then feet and inches, and never twelve inches', () => {
    const said = (inches: number, feet?: boolean) =>
      length(inches * 0.0254, 'us', feet)
        .map((part) => `${part.value} ${part.unit}`)
        .join(' ');
    expect(said(35)).toBe('35 in');
    expect(said(36)).toBe('3 ft');
    expect(said(94)).toBe('7 ft 10 in');
    expect(said(95.8)).toBe('8 ft');
    expect(said(21, inFeet(40 * 0.0254))).toBe('1 ft 9 in');
    expect(said(21, inFeet(29 * 0.0254))).toBe('21 in');
  });
  it('calls a trace what would read as nothing', () => {
    expect(isTrace(weight(0, 'metric'))).toBe(false);
    expect(isTrace(weight(0.04, 'metric'))).toBe(true);
    expect(isTrace(weight(0.3, 'metric'))).toBe(false);
    expect(isTrace(weight(1, 'us'))).toBe(true);
    expect(isTrace(weight(2, 'us'))).toBe(false);
  });
  it('marks whole metres or every second foot, never past the end', () => {
    expect(rulerMarks(3.6, 'metric').map((mark) => mark.label)).toEqual([0, 1, 2, 3]);
    const feet = rulerMarks(2.4, 'us');
    expect(feet.map((mark) => mark.label)).toEqual([0, 2, 4, 6]);
    expect(feet.at(-1)!.atM).toBeLessThanOrEqual(2.4);
  });
});
