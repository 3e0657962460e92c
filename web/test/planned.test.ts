import { describe, expect, it } from 'vitest';
import type { TableWant, TableWeek, Want } from '../src/api/types';
import { daysLeft, isPlanned, plannedSums, unplannedFrom } from '../src/domain/planned';
import { makeStand, parseDay } from './helpers';

const week = (week_start: string, p90: number) => ({
  week_start,
  weight_g: { p10: 0, p50: 0, p90 },
  ready_probability: 0,
});
const stand = {
  ...makeStand(),
  weeks: [week('2027-06-07', 300), week('2027-06-14', 80), week('2027-06-21', 0)],
};

const beets = { crop: 'beet', variety: '' } as Want;

describe('how far a plan reaches', () => {
  it('is the last week that may bring something of the wish, or that the plan calls short', () => {
    expect(unplannedFrom(beets, [stand], [])).toBe(parseDay('2027-06-21'));
    expect(unplannedFrom(beets, [stand], ['2027-05-31', '2028-02-07'])).toBe(parseDay('2028-02-14'));
    expect(unplannedFrom(beets, [], [])).toBeUndefined();
  });
  it('is told by the stands of the wish alone', () => {
    const others = { crop: 'pea', variety: '' } as Want;
    expect(unplannedFrom(others, [stand], [])).toBeUndefined();
  });
  it('bounds what a wish is held against', () => {
    const row = {
      weeks: ['2027-06-07', '2027-06-14', '2027-06-21'].map((week_start) => ({
        week_start,
        wanted: 100,
        reaches: { p10: 0, p50: week_start === '2027-06-21' ? 1 : 90, p90: 100 },
        mean_reaches: week_start === '2027-06-21' ? 1 : 90,
      })),
    } as unknown as TableWant;
    const from = unplannedFrom(beets, [stand], []);
    expect(plannedSums(row, from)).toEqual({ wanted: 200, reaches: 180 });
    expect(plannedSums(row, undefined).wanted).toBe(300);
    expect(row.weeks.map((each) => isPlanned(each, from))).toEqual([true, true, false]);
  });
  it('does not call a later week unplanned that the store meets by itself', () => {
    const from = parseDay('2027-06-21');
    const later = (wanted: number, p50: number) =>
      ({
        week_start: '2027-07-05',
        wanted,
        reaches: { p10: 0, p50, p90: p50 },
        mean_reaches: p50,
      }) as TableWeek;
    expect(isPlanned(later(100, 100), from)).toBe(true);
    expect(isPlanned(later(100, 98), from)).toBe(false);
    expect(isPlanned(later(0, 0), from)).toBe(false);
    expect(
      plannedSums({ weeks: [later(100, 100), later(100, 5)] } as unknown as TableWant, from).wanted,
    ).toBe(100);
  });
  it('counts the days of this week that are left', () => {
    const monday = parseDay('2027-06-07');
    expect(daysLeft(monday, monday)).toBe(7);
    expect(daysLeft(monday, monday + 1)).toBe(6);
    expect(daysLeft(monday, monday + 6)).toBe(1);
    expect(daysLeft(monday + 7, monday + 3)).toBe(7);
  });
});
