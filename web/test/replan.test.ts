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

const kinds = (before: Stand[], after: Stand[]) =>
  planChanges(before, after).map(
    (change) => `${change.kind} ${change.before?.id ?? '-'} ${change.after?.id ?? '-'}`,
  );

describe('what a re-plan changed', () => {
  it('pairs stands whatever ids they were given, and says what stayed', () => {
    expect(kinds([stand('s1', 'beet', '2027-05-01')], [stand('p9', 'beet', '2027-05-01')])).toEqual([
      'same s1 p9',
    ]);
  });
  it('tells other weeks of pulling alone', () => {
    const waits = { pick_weeks: 12, pick_from: '2027-11-01' };
    const before = [stand('s1', 'leek', '2027-03-01', waits)];
    expect(kinds(before, [stand('p1', 'leek', '2027-03-01', waits)])).toEqual(['same s1 p1']);
    for (const other of [{ ...waits, pick_weeks: 8 }, { ...waits, pick_from: '2027-11-08' }, {}])
      expect(kinds(before, [stand('p1', 'leek', '2027-03-01', other)])).toEqual(['changed s1 p1']);
  });
  it('tells a moved sowing from a new and a dropped one', () => {
    expect(
      kinds(
        [stand('s1', 'beet', '2027-05-01'), stand('s2', 'pea', '2027-04-01')],
        [stand('p1', 'beet', '2027-05-10'), stand('p2', 'kale', '2027-06-01')],
      ),
    ).toEqual(['gone s2 -', 'changed s1 p1', 'new - p2']);
  });
  it('pairs the most alike, each once', () => {
    expect(
      kinds(
        [stand('s1', 'beet', '2027-05-01'), stand('s2', 'beet', '2027-07-01')],
        [stand('p1', 'beet', '2027-07-05'), stand('p2', 'beet', '2027-05-01', { bed: 'b' })],
      ),
    ).toEqual(['changed s1 p2', 'changed s2 p1']);
  });
  it('takes sowings months apart as two, and leaves out what is sown', () => {
    expect(kinds([stand('s1', 'beet', '2027-04-01')], [stand('p1', 'beet', '2027-08-01')])).toEqual([
      'gone s1 -',
      'new - p1',
    ]);
    expect(kinds([stand('s1', 'beet', '2027-04-01', { state: 'up' })], [])).toEqual([]);
  });
});
