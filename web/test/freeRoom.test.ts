import { describe, expect, it } from 'vitest';
import { freeStretches } from '../src/domain/freeRoom';
import { makeStay, parseDay } from './helpers';

describe('free room', () => {
  const stays = [
    makeStay('a', '2027-04-01', '2027-06-01', { from_m: 0.5, to_m: 1.5 }),
    makeStay('b', '2027-05-01', '2027-07-01', { from_m: 2.0, to_m: 3.0 }),
  ];
  it('is the whole bed when nothing stands in it', () => {
    expect(freeStretches(3, [], parseDay('2027-04-20'))).toEqual([{ fromM: 0, toM: 3, until: null }]);
  });
  it('lies between the stands of that day, until the next comes', () => {
    expect(freeStretches(3, stays, parseDay('2027-04-20'))).toEqual([
      { fromM: 0, toM: 0.5, until: null },
      { fromM: 1.5, toM: 3, until: parseDay('2027-05-01') },
    ]);
  });
  it('counts the first and the last day as taken', () => {
    expect(freeStretches(1.5, [stays[0]!], parseDay('2027-04-01'))).toHaveLength(1);
    expect(freeStretches(1.5, [stays[0]!], parseDay('2027-06-02'))).toEqual([
      { fromM: 0, toM: 1.5, until: null },
    ]);
  });
  it('agrees with walking along the bed in centimetres', () => {
    let state = 7;
    const random = () => (state = (state * 48271) % 2147483647) / 2147483647;
    for (let round = 0; round < 50; round += 1) {
      const many = Array.from({ length: 8 }, (_, i) => {
        const from = Math.floor(random() * 300) / 100;
        return makeStay(`r${i}`, '2027-04-01', '2027-05-01', {
          from_m: from,
          to_m: from + 0.1 + Math.floor(random() * 80) / 100,
        });
      });
      const free = freeStretches(4, many, parseDay('2027-04-10'));
      for (let cm = 0; cm < 400; cm += 1) {
        const at = (cm + 0.5) / 100;
        const taken = many.some((stay) => stay.stand.from_m <= at && at < stay.stand.to_m);
        const inFree = free.some((gap) => gap.fromM <= at && at < gap.toM);
        if (inFree) expect(taken).toBe(false);
        // Gaps below five centimetres are left out on purpose.
        if (!taken && !inFree) expect(free.every((gap) => at < gap.fromM || at > gap.toM)).toBe(true);
      }
    }
  });
});
