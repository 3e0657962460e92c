import { describe, expect, it } from 'vitest';
import type { Want } from '../src/api/types';
import { consequencesOf, inYearSpan, weeksOfWant } from '../src/domain/supply';
import { makeStand, parseDay } from './helpers';

const want: Want = {
  id: 'w',
  crop: 'beet',
  group: '',
  crops: ['beet'],
  variety: '',
  amount_per_week: 900,
  unit: 'grams',
  from: '06-15',
  to: '11-15',
};
const week = (start: string, p50: number) => ({
  week_start: start,
  weight_g: { p10: p50 / 2, p50, p90: p50 * 2 },
  ready_probability: 0.5,
});

describe('wants and weeks', () => {
  it('knows a season that wraps the new year', () => {
    expect(inYearSpan('12-31', '10-01', '03-01')).toBe(true);
    expect(inYearSpan('03-02', '10-01', '03-01')).toBe(false);
  });
  it('adds the weeks of all stands of the crop and of no other', () => {
    const stands = [
      makeStand({ weeks: [week('2027-06-14', 400), week('2027-06-21', 300)] }),
      makeStand({ id: 's2', weeks: [week('2027-06-21', 200)] }),
      makeStand({ id: 's3', crop: 'chard', weeks: [week('2027-06-21', 9000)] }),
    ];
    const rows = weeksOfWant(want, stands, parseDay('2027-06-16'), 3);
    expect(rows.map((row) => row.p50)).toEqual([400, 500, 0]);
    // The wish begins on the Tuesday of the first week.
    expect(rows.map((row) => row.wantedG)).toEqual([(900 * 6) / 7, 900, 900]);
  });
  it('counts every crop of a group for a wish that names the group', () => {
    const greens = { ...want, crop: '', group: 'greens', crops: ['chard', 'kale'] };
    const stands = [
      makeStand({ crop: 'chard', weeks: [week('2027-06-14', 400)] }),
      makeStand({ id: 's2', crop: 'kale', weeks: [week('2027-06-14', 100)] }),
      makeStand({ id: 's3', weeks: [week('2027-06-14', 9000)] }),
    ];
    expect(weeksOfWant(greens, stands, parseDay('2027-06-16'), 1)[0]!.p50).toBe(500);
    expect(consequencesOf(stands[0]!, stands[0]!, stands, [greens], parseDay('2027-06-16'))).toHaveLength(1);
    expect(consequencesOf(stands[2]!, stands[2]!, stands, [greens], parseDay('2027-06-16'))).toHaveLength(0);
  });
  it('asks for nothing out of season and compares nothing in pieces', () => {
    expect(weeksOfWant(want, [], parseDay('2027-04-05'), 1)[0]).toMatchObject({
      wantedG: null,
      inSeason: false,
    });
    expect(weeksOfWant({ ...want, unit: 'pieces' }, [], parseDay('2027-07-05'), 1)[0]).toMatchObject({
      wantedG: null,
      inSeason: true,
    });
  });
  it('tells varieties apart only where the want does', () => {
    const stand = makeStand({ variety: 'other', weeks: [week('2027-07-05', 100)] });
    expect(weeksOfWant({ ...want, variety: 'rubycoil' }, [stand], parseDay('2027-07-05'), 1)[0]!.p50).toBe(0);
    expect(weeksOfWant(want, [stand], parseDay('2027-07-05'), 1)[0]!.p50).toBe(100);
  });
});
