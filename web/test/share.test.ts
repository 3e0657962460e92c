import { describe, expect, it } from 'vitest';
import { sameValue, shareItems } from '../src/domain/share';

describe('what was read again', () => {
  it('is equal when all that it holds is', () => {
    const value = { id: 'a', list: [1, null, 'x'], inner: { p50: 0.5 } };
    expect(sameValue(value, structuredClone(value))).toBe(true);
    for (const other of [
      { ...value, list: [1, null] },
      { ...value, list: [1, undefined, 'x'] },
      { ...value, inner: { p50: 0.6 } },
      { ...value, more: 1 },
      null,
      [],
    ])
      expect(sameValue(value, other)).toBe(false);
  });
  it('stays the same object, in the new order, and only what changed is new', () => {
    const before = [
      { id: 'a', n: 1 },
      { id: 'b', n: 2 },
    ];
    const after = [
      { id: 'b', n: 2 },
      { id: 'a', n: 9 },
      { id: 'c', n: 3 },
    ];
    const shared = shareItems(before, after);
    expect(shared.map((each) => each.id)).toEqual(['b', 'a', 'c']);
    expect(shared[0]).toBe(before[1]);
    expect(shared[1]).toBe(after[1]);
  });
});
