import { describe, expect, it } from 'vitest';
import { isoDay, parseDay } from '../src/domain/days';
import {
  dayOfAxis,
  degrees,
  kilometresOrMiles,
  middlesOfMonths,
  rangeOf,
  nameOfSpot,
  stretches,
  warmStretches,
} from '../src/domain/site';
import { bandPath, linePath, yearScales } from '../src/drawing/yearChart';

const kCommon = parseDay('2027-01-01');
const kLeap = parseDay('2028-01-01');

describe('measures', () => {
  it('give the fixed points of the scales', () => {
    expect(degrees(0, 'us')).toBe(32);
    expect(degrees(100, 'us')).toBe(212);
    expect(degrees(-40, 'us')).toBe(-40);
    expect(degrees(12.5, 'metric')).toBe(12.5);
    expect(kilometresOrMiles(1.609344, 'us')).toBe(1);
  });
});

describe('days of the axis', () => {
  it('lie in its year, and 29 February on the 28th of a common one', () => {
    expect(isoDay(dayOfAxis('04-23', kCommon))).toBe('2027-04-23');
    expect(isoDay(dayOfAxis('02-29', kCommon))).toBe('2027-02-28');
    expect(isoDay(dayOfAxis('02-29', kLeap))).toBe('2028-02-29');
  });
  it('do not exist for words', () => {
    expect(dayOfAxis('never', kCommon)).toBeNaN();
    expect(dayOfAxis('always', kCommon)).toBeNaN();
  });
  it('wrap the new year in two stretches', () => {
    const from = dayOfAxis('10-15', kCommon);
    const to = dayOfAxis('04-01', kCommon);
    expect(stretches(to, from, kCommon, 365)).toEqual([{ from: to, to: from }]);
    expect(stretches(from, to, kCommon, 365)).toEqual([
      { from, to: kCommon + 364 },
      { from: kCommon, to },
    ]);
  });
  it('have a 15th in every month', () => {
    expect(middlesOfMonths(kLeap).map((day) => isoDay(day).slice(5))).toEqual(
      Array.from({ length: 12 }, (_, i) => `${String(i + 1).padStart(2, '0')}-15`),
    );
  });
});

describe('ranges of dates', () => {
  it('run from early to late, over the new year too', () => {
    const drawn = rangeOf({ p10: '12-20', p50: '01-25', p90: '03-05' }, kCommon, 365);
    expect(drawn.range.map(({ from, to }) => [isoDay(from), isoDay(to)])).toEqual([
      ['2027-12-20', '2027-12-31'],
      ['2027-01-01', '2027-03-05'],
    ]);
    expect(isoDay(drawn.middle)).toBe('2027-01-25');
  });
  it('begin where there is a date, and are empty where there is none', () => {
    const some = rangeOf({ p10: 'never', p50: 'never', p90: '02-10' }, kCommon, 365);
    expect(some.range).toEqual([{ from: parseDay('2027-02-10'), to: parseDay('2027-02-10') }]);
    expect(some.middle).toBeNaN();
    expect(rangeOf({ p10: 'never', p50: 'never', p90: 'never' }, kCommon, 365).range).toEqual([]);
  });
  it('of warm soil fill the year, none of it or a part', () => {
    expect(warmStretches('never', kLeap, 366)).toEqual([]);
    expect(warmStretches('always', kLeap, 366)).toEqual([{ from: kLeap, to: kLeap + 365 }]);
    expect(warmStretches({ from: '10-01', until: '04-01' }, kLeap, 366)).toHaveLength(2);
  });
});

describe('the picture of a year', () => {
  const frame = { width: 500, height: 200, left: 40, right: 10, top: 10, bottom: 30 };
  it('finds each day again under its own pixel, in common and leap years', () => {
    for (const [first, days] of [
      [kCommon, 365],
      [kLeap, 366],
    ] as const) {
      const scales = yearScales(first, days, [-5, 30], frame);
      for (let day = first; day < first + days; day += 1) expect(scales.dayAt(scales.xOf(day))).toBe(day);
      expect(scales.dayAt(-100)).toBe(first);
      expect(scales.dayAt(10_000)).toBe(first + days - 1);
      expect(scales.months).toHaveLength(12);
    }
  });
  it('keeps every value inside the frame', () => {
    const scales = yearScales(kCommon, 365, [-7.3, 31.4], frame);
    for (const value of [-7.3, 31.4]) {
      expect(scales.yOf(value)).toBeGreaterThanOrEqual(frame.top);
      expect(scales.yOf(value)).toBeLessThanOrEqual(frame.height - frame.bottom);
    }
    expect(scales.yOf(31.4)).toBeLessThan(scales.yOf(-7.3));
  });
  it('draws flat and empty years without breaking', () => {
    for (const values of [[4, 4], []]) {
      const scales = yearScales(kCommon, 365, values, frame);
      const path = linePath(Array<number>(365).fill(4), kCommon, scales);
      expect(path).not.toMatch(/NaN|Infinity/);
      expect(
        bandPath({ low: Array<number>(365).fill(3), high: Array<number>(365).fill(5) }, kCommon, scales),
      ).not.toMatch(/NaN|Infinity/);
    }
  });
});

describe('the name that the program gives a position', () => {
  it('is told apart from a name of the grower’s own', () => {
    expect(nameOfSpot('near Cape Town')).toEqual({ station: 'Cape Town', at: '', distanceKm: null });
    expect(nameOfSpot('1.35, -103.82 (by Hyderabad, 3317 km away)')).toEqual({
      station: 'Hyderabad',
      at: '1.35, -103.82',
      distanceKm: 3317,
    });
    expect(nameOfSpot('Garden by the sea')).toBeUndefined();
  });
});
