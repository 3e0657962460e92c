import { describe, expect, it } from 'vitest';
import { waysToTell } from '../src/domain/observe';

describe('a size', () => {
  it('is felt wherever a width tells the weight, of round and of long roots', () => {
    const across = { p10: 20, p50: 30, p90: 40 };
    expect(waysToTell({ options: [{ diameter_mm: across }] })).toEqual(['eye', 'felt', 'weighed']);
    expect(waysToTell({ options: [{ diameter_mm: null }] })).toEqual(['eye', 'weighed']);
    expect(waysToTell({ options: [] })).toEqual(['eye', 'weighed']);
  });
});
