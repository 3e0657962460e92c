import { describe, expect, it } from 'vitest';
import type { JudgedStand } from '../src/api/types';
import { bestOf } from '../src/domain/judge';

const judged = (advice: string, best_weeks: number, usable_g: number[]) =>
  ({ advice, best_weeks, options: usable_g.map((grams) => ({ usable_g: grams })) }) as JudgedStand;

describe('the best row', () => {
  it('is that of the advice', () => {
    expect(bestOf(judged('wait', 2, [10, 20, 30, 30]))).toBe(2);
    expect(bestOf(judged('pull', 0, [30, 20, 20, 20]))).toBe(0);
    expect(bestOf(judged('pull', 1, [10, 20, 20, 20]))).toBeUndefined();
  });
  it('is none where there is nothing to judge', () => {
    expect(bestOf(judged('nothing to judge yet', 0, [0, 0, 0, 0]))).toBeUndefined();
    expect(bestOf(judged('pull the largest', 0, [0, 0, 0, 0]))).toBeUndefined();
  });
});
