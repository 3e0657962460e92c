import { describe, expect, it } from 'vitest';
import { pulledFrom } from '../src/domain/pulling';
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
