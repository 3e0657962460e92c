import { describe, expect, it } from 'vitest';
import type { Task } from '../src/api/types';
import { failedSowing, isOfPieces, plantsAgain, storing, takeAll, type Deed } from '../src/domain/deeds';
import { firstWeight, ounceStep, stepped } from '../src/domain/stepper';
import { kGramsPerOunce, kGramsPerPound } from '../src/domain/units';

const look = (amount: string, again: number) =>
  ({
    kind: 'check-emergence',
    again_count: again,
    said: { place: [], amount: [{ key: amount, values: {} }], reason: [], caution: [] },
  }) as unknown as Task;

describe('a sowing of which nothing came', () => {
  it('is written as none counted, then as sown again', () => {
    expect(failedSowing(look('look-or-sow', 80), '2027-04-20')).toEqual([
      { kind: 'counted', count: 0, date: '2027-04-20' },
      { kind: 'sown', count: 80, date: '2027-04-20' },
    ]);
  });
  it('is cleared where sowing again is too late', () => {
    expect(failedSowing(look('look-or-leave', 0), '2027-04-20').map((deed) => deed.kind)).toEqual([
      'counted',
      'discarded',
    ]);
  });
  it('is not offered while it may well come, nor for other work', () => {
    expect(failedSowing(look('look-and-count', 0), '2027-04-20')).toEqual([]);
    expect(failedSowing({ ...look('look-or-sow', 80), kind: 'sow' }, '2027-04-20')).toEqual([]);
  });
});

describe('what is planted in place of seed', () => {
  const due = (kind: string, amount: string) => ({ ...look(amount, 0), kind });
  it('is planted again where a look shows that nothing came', () => {
    expect(plantsAgain(due('check-emergence', 'look-or-plant'))).toBe(true);
    expect(plantsAgain(due('check-emergence', 'look-or-sow'))).toBe(false);
  });
  it('is counted as pieces each time', () => {
    expect(isOfPieces(due('sow', 'plant-cells'))).toBe(true);
    expect(isOfPieces(due('re-sow', 'plant-places'))).toBe(true);
    expect(isOfPieces(due('re-sow', 'sow-places'))).toBe(false);
    expect(isOfPieces({ kind: 'sow' } as Task)).toBe(false);
  });
});

describe('a picking of all of a stand', () => {
  const picking = (text: string, count: number) => ({ log_text: text, log_count: count }) as Task;
  const deed = (): Deed => ({ kind: 'picked', grams: 3400, date: '2027-07-01' });
  it('says so, with the plants that are left by the log', () => {
    const made = deed();
    takeAll(made, picking('all', 14));
    expect(made).toEqual({ kind: 'picked', grams: 3400, date: '2027-07-01', text: 'all', count: 14 });
  });
  it('leaves the plants to the log where the task proposes some of them, or where fruit is picked', () => {
    for (const task of [picking('', 5), picking('all', 0)]) {
      const made = deed();
      takeAll(made, task);
      expect(made).toEqual({ ...deed(), text: 'all' });
    }
  });
});

describe('what is lifted and stored', () => {
  it('is written into the store at the place that the task says', () => {
    const deed: Deed = { kind: 'picked', grams: 3400, date: '2027-10-01', text: 'all' };
    expect(storing(deed, { log_store: 'best' } as Task)).toEqual({
      kind: 'stored',
      grams: 3400,
      date: '2027-10-01',
      text: 'best',
    });
  });
});

describe('a weight to start from', () => {
  it('is what the card says, on either scales', () => {
    expect(firstWeight(277, 'metric')).toBe(277);
    expect(firstWeight(904.4, 'metric')).toBe(904);
    expect(firstWeight(3, 'us')).toBeCloseTo(0.1 * kGramsPerOunce, 9);
    expect(firstWeight(700, 'us')).toBeCloseTo(1.5 * kGramsPerPound, 9);
  });
  it('goes by ounces and half pounds on US scales, up and down alike', () => {
    let value = 0;
    for (let i = 0; i < 40; i += 1) {
      const up = stepped(value, 1, ounceStep);
      expect(up).toBeGreaterThan(value);
      expect(stepped(up, -1, ounceStep)).toBeCloseTo(value, 6);
      value = up;
    }
    expect(value).toBeGreaterThan(10 * kGramsPerPound);
  });
});
