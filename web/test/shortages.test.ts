import { describe, expect, it } from 'vitest';
import { parseDay } from '../src/domain/days';
import { shortRuns } from '../src/domain/shortages';

const week = (want: string, week_start: string, grams = 100, probability = 0.5) => ({
  want,
  week_start,
  grams,
  probability,
});

describe('the weeks that fall short', () => {
  it('are put together while they follow each other, wish by wish', () => {
    const { runs } = shortRuns(
      [
        week('beet', '2027-06-14', 463, 0.9),
        week('chard', '2027-06-21'),
        week('beet', '2027-06-21', 422, 0.8),
        week('beet', '2027-09-13'),
      ],
      0.2,
    );
    expect(runs.map((run) => [run.want, run.weeks.length])).toEqual([
      ['beet', 2],
      ['beet', 1],
      ['chard', 1],
    ]);
    expect(runs[0]).toMatchObject({
      first: parseDay('2027-06-14'),
      last: parseDay('2027-06-27'),
      grams: 885,
      least: 0.8,
      most: 0.9,
    });
  });

  it('lose none, however many there are', () => {
    const many = Array.from({ length: 90 }, (_, i) =>
      week(`want${i % 3}`, new Date(Date.UTC(2027, 0, 4 + 7 * i)).toISOString().slice(0, 10)),
    );
    const { runs, rare } = shortRuns(many, 0.2);
    expect(runs.flatMap((run) => run.weeks)).toHaveLength(90);
    expect(rare).toBe(0);
  });

  it('are counted apart when short in few of the years, and left out when nothing is missing', () => {
    const { runs, rare } = shortRuns(
      [week('pea', '2027-06-14', 50, 0.1), week('pea', '2027-06-21', 0.4), week('pea', '2027-06-28')],
      0.2,
    );
    expect(rare).toBe(1);
    expect(runs.map((run) => run.weeks.length)).toEqual([1]);
  });
});
