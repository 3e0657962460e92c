import { describe, expect, it } from 'vitest';
import type { TableWant, Task } from '../src/api/types';
import { riskIn, weeksAhead } from '../src/domain/ahead';
import { parseDay } from '../src/domain/days';
import { makeStand } from './helpers';

const today = parseDay('2027-06-16'); // a Wednesday
const grams = (week_start: string, p50: number) => ({
  week_start,
  weight_g: { p10: p50 / 2, p50, p90: 2 * p50 },
});
const wish = (want: string, unit: TableWant['unit'], ...weeks: [string, number, number][]): TableWant => ({
  want,
  unit,
  wanted: 0,
  mean_reaches: 0,
  weeks: weeks.map(([week_start, wanted, p50]) => ({
    week_start,
    wanted,
    reaches: { p10: 0, p50, p90: wanted },
    mean_reaches: p50,
    mean_from_store: 0,
    short_chance: 0,
  })),
});

describe('the weeks ahead', () => {
  const stands = [
    makeStand({
      id: 'a',
      crop: 'beet',
      weeks: [grams('2027-06-14', 300), grams('2027-06-21', 480)] as never,
    }),
    makeStand({ id: 'b', crop: 'beet', weeks: [grams('2027-06-14', 100)] as never }),
    makeStand({
      id: 'c',
      crop: 'pea',
      crop_name: 'Pea',
      weeks: [grams('2027-06-14', 900), grams('2027-06-28', 50)] as never,
    }),
    makeStand({ id: 'd', crop: 'leek', weeks: [grams('2027-06-14', 0.2)] as never }),
  ];
  it('put the stands of a crop together, the heaviest first, and leave out next to nothing', () => {
    const [now, next] = weeksAhead(stands, [], today, 2);
    expect(now!.week).toBe(parseDay('2027-06-14'));
    expect(now!.comes.map((each) => [each.crop, each.p10, each.p50, each.p90])).toEqual([
      ['pea', 450, 900, 1800],
      ['beet', 200, 400, 800],
    ]);
    expect(next!.comes.map((each) => each.crop)).toEqual(['beet']);
  });
  it('tell of this week what the cards to pick tell, and nothing later of what they take whole', () => {
    const pick = (stand: string, over: Partial<Task>) =>
      ({ kind: 'pick', stand, due: '2027-06-16', log_text: '', log_grams: 0, ...over }) as Task;
    const about = { key: 'pick-about', values: { middle_g: 950, low_g: 600, high_g: 990 } };
    const tasks = [
      pick('a', { log_grams: 1500, log_text: 'all' }),
      pick('c', { log_grams: 950, said: { amount: [about] } as never }),
      pick('d', { log_grams: 40, due: '2027-06-22' }),
    ];
    const [now, next] = weeksAhead(stands, [], today, 2, tasks);
    expect(now!.comes.map((each) => [each.crop, each.p10, each.p50, each.p90])).toEqual([
      ['beet', 1550, 1600, 1700],
      ['pea', 600, 950, 990],
    ]);
    expect(next!.comes).toEqual([]);
  });
  it('tell what is missing of a wish, the least met first, but not of one that is met but for a little or not asked for', () => {
    const table = [
      wish('beet', 'grams', ['2027-06-14', 500, 400], ['2027-06-21', 500, 480]),
      wish('chard', 'servings', ['2027-06-14', 3, 0], ['2027-06-21', 3, 3]),
      wish('winter', 'pieces', ['2027-06-14', 0, 0], ['2027-06-21', 0, 0]),
    ];
    const [now, next] = weeksAhead(stands, table, today, 2);
    expect(now!.short).toEqual([
      { want: 'chard', unit: 'servings', missing: 3 },
      { want: 'beet', unit: 'grams', missing: 100 },
    ]);
    expect(next!.short).toEqual([]);
  });
  it('find the chances of the week by its middle', () => {
    const risks = [
      { from: '2027-06-11', to: '2027-06-17', frost: 0.1, hard_frost: 0, heat: 0 },
      { from: '2027-06-18', to: '2027-06-24', frost: 0, hard_frost: 0, heat: 0.4 },
    ];
    expect(riskIn(parseDay('2027-06-14'), risks)!.frost).toBe(0.1);
    expect(riskIn(parseDay('2027-06-21'), risks)!.heat).toBe(0.4);
    expect(riskIn(parseDay('2028-06-21'), risks)).toBeUndefined();
  });
});
