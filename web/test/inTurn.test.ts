import { describe, expect, it } from 'vitest';
import { InTurn } from '../src/domain/inTurn';

describe('deeds in turn', () => {
  it('come one after the other in the order asked for', async () => {
    const turn = new InTurn();
    const seen: string[] = [];
    const deed = (name: string, ms: number) =>
      turn.do(async () => {
        seen.push(`${name} begins`);
        await new Promise((done) => setTimeout(done, ms));
        seen.push(`${name} ends`);
        return name;
      });
    expect(await Promise.all([deed('a', 5), deed('b', 0)])).toEqual(['a', 'b']);
    expect(seen).toEqual(['a begins', 'a ends', 'b begins', 'b ends']);
  });
  it('go on after one that failed', async () => {
    const turn = new InTurn();
    const failing = turn.do(() => Promise.reject(new TypeError('a defect')));
    const next = turn.do(() => Promise.resolve('done'));
    await expect(failing).rejects.toThrow('a defect');
    expect(await next).toBe('done');
    expect(await turn.do(() => Promise.resolve('and again'))).toBe('and again');
  });
});
