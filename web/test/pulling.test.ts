import { describe, expect, it } from 'vitest';
import { pulledFrom, pulledWeeks } from '../src/domain/pulling';
import { isoDay, makeStand } from './helpers';

describe('the day from which a stand is pulled', () => {
  const day = (over: Parameters<typeof makeStand>[0]) => {
    const from = pulledFrom(makeStand(over));
    return from === undefined ? undefined : isoDay(from);
  };
  it('is the plan’s, or that of the first picking where that is later', () => {
    expect(day({ pick_from: '2027-11-01' })).toBe('2027-11-01');
    expect(day({ pick_from: '2027-05-01' })).toBe('2027-06-08');
    expect(day({ pick_from: null })).toBe('2027-06-08');
    expect(day({ pick_from: null, facts: { first_picked: '2027-06-03' } })).toBe('2027-06-03');
  });
  it('is the plan’s alone where nothing more is known, or none', () => {
    expect(pulledFrom({ pick_weeks: 3, pick_from: '2027-05-01' })).toBeDefined();
    expect(day({ pick_from: null, events: [] })).toBeUndefined();
  });
});

describe('the weeks over which a stand is pulled', () => {
  const until = (last: string, over = {}) =>
    pulledWeeks(
      makeStand({
        pick_weeks: 22,
        pick_from: '2027-06-15',
        events: [{ name: 'last-pick', p10: last, p50: last, p90: last, probability: 1 }],
        ...over,
      }),
    );
  it('are those to its end where that comes before the plan’s last', () => {
    expect(until('2027-08-11')).toBe(9);
    expect(until('2027-08-10')).toBe(8);
    expect(until('2028-03-01')).toBe(22);
    expect(until('2027-06-15')).toBe(1);
  });
  it('are the plan’s where no end is known, and none where each is pulled as it is ready', () => {
    expect(until('2027-08-11', { events: [] })).toBe(22);
    expect(until('2027-08-11', { pick_weeks: 0 })).toBe(0);
  });
});
