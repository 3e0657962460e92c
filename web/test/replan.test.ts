import { describe, expect, it } from 'vitest';
import type { Stand } from '../src/api/types';
import { planChanges } from '../src/domain/replan';

const stand = (id: string, crop: string, sow: string, over: Partial<Stand> = {}): Stand =>
  ({
    id,
    crop,
    sow,
    state: 'planned',
    bed: 'a',
    from_m: 0,
    to_m: 1,
    clumps: 20,
    method: 'direct-sow',
    variety: '',
    ...over,
  }) as Stand;

const kBeds = [
  { id: 'a', length_m: 3 },
  { id: 'b', length_m: 3 },
];
const kinds = (before: Stand[], after: Stand[]) =>
  planChanges(before, after, kBeds).map(
    (change) => `${change.kind} ${change.before?.id ?? '-'} ${change.after?.id ?? '-'}`,
  );

describe('what a re-plan changed', () => {
  it('pairs stands by their ids, as the plan does, and says what stayed', () => {
    const day = '2027-05-01';
    expect(kinds([stand('s1', 'beet', day)], [stand('s1', 'beet', day)])).toEqual(['same s1 s1']);
    // Two sowings alike are not one that moved.
    expect(kinds([stand('s1', 'beet', day)], [stand('s9', 'beet', day)])).toEqual(['gone s1 -', 'new - s9']);
    // However far it moved, it is the one the plan speaks of.
    expect(kinds([stand('s1', 'beet', day)], [stand('s1', 'beet', '2027-08-01', { bed: 'b' })])).toEqual([
      'changed s1 s1',
    ]);
    // An id that was given to another crop is another stand.
    expect(kinds([stand('s1', 'beet', day)], [stand('s1', 'pea', '2027-06-01')])).toEqual([
      'gone s1 -',
      'new - s1',
    ]);
  });
  it('tells other weeks of pulling alone', () => {
    const waits = { pick_weeks: 12, pick_from: '2027-11-01' };
    const before = [stand('s1', 'leek', '2027-03-01', waits)];
    expect(kinds(before, [stand('s1', 'leek', '2027-03-01', waits)])).toEqual(['same s1 s1']);
    for (const other of [{ ...waits, pick_weeks: 8 }, { ...waits, pick_from: '2027-11-08' }, {}])
      expect(kinds(before, [stand('s1', 'leek', '2027-03-01', other)])).toEqual(['changed s1 s1']);
  });
  it('takes a push along the bed by less than a tenth of its length for none', () => {
    const was = [stand('s1', 'beet', '2027-05-01')];
    const pushed = (byM: number, over: Partial<Stand> = {}) =>
      kinds(was, [stand('s1', 'beet', '2027-05-01', { from_m: byM, to_m: 1 + byM, ...over })]);
    expect(pushed(0.25)).toEqual(['same s1 s1']);
    expect(pushed(0.4)).toEqual(['changed s1 s1']);
    expect(pushed(0, { bed: 'b' })).toEqual(['changed s1 s1']);
    expect(pushed(0.25, { clumps: 18 })).toEqual(['changed s1 s1']);
  });
  it('lists in order of sowing, and leaves out what is sown', () => {
    expect(
      kinds(
        [stand('s1', 'beet', '2027-05-01'), stand('s2', 'pea', '2027-04-01')],
        [stand('s1', 'beet', '2027-05-10'), stand('s3', 'kale', '2027-06-01')],
      ),
    ).toEqual(['gone s2 -', 'changed s1 s1', 'new - s3']);
    expect(kinds([stand('s1', 'beet', '2027-04-01', { state: 'up' })], [])).toEqual([]);
  });
});
