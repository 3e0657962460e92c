import { describe, expect, it } from 'vitest';
import { causesSaid, limitsOf, unmetWishes } from '../src/domain/limits';

const short = (want: string) => ({ key: 'want-short', values: { want, want_id: want, met_share: 0.5 } });
const cause = (text: string) => ({ key: 'no-week-often-enough', values: { cause: text } });

describe('limitsOf', () => {
  it('takes the wishes together that one reason holds back', () => {
    const beds = { key: 'beds-taken', values: {} };
    const packet = [{ key: 'packet-too-small', values: { crop: 'beet', seeds: 300 } }];
    const said = [
      [short('pea'), beds],
      packet,
      [short('kale'), cause('frost')],
      [short('beet'), beds],
      [short('okra'), cause('heat')],
    ];
    const limits = limitsOf(['a', 'b', 'c', 'd', 'e'], said, () => true);
    expect(limits.held).toEqual([
      { reason: beds, wants: ['pea', 'beet'] },
      { reason: cause('frost'), wants: ['kale'] },
      { reason: cause('heat'), wants: ['okra'] },
    ]);
    expect(limits.others).toEqual([1]);
  });

  it('leaves a reason that has no words any more to the sentence that came with it', () => {
    const said = [[short('pea'), { key: 'moonlight', values: {} }]];
    const limits = limitsOf(['Pea: short.'], said, (reason) => reason.key !== 'moonlight');
    expect(limits).toEqual({ held: [], others: [0] });
  });

  it('leaves the notes of an older plan, which come without phrases, as they are', () => {
    expect(limitsOf(['Pea: short.'], undefined, () => true)).toEqual({ held: [], others: [0] });
  });
});

describe('unmetWishes', () => {
  const got = (want: string, supplied_g: number, wanted_g = 1000) => ({ want, wanted_g, supplied_g });
  it('tells each wish that gets nothing, with its reason, and none that gets something or asks for nothing', () => {
    const wants = [got('okra', 0), got('pea', 500), got('melon', 4), got('leek', 0, 0), got('kale', 5)];
    const said = [
      [short('okra'), cause('heat')],
      [short('pea'), cause('frost')],
      [short('kale'), cause('frost')],
    ];
    expect(unmetWishes({ wants, notes_said: said })).toEqual([
      { want: 'okra', reason: [cause('heat')] },
      { want: 'melon', reason: [] },
    ]);
  });

  it('tells them without a reason for a plan of an earlier version', () => {
    expect(unmetWishes({ wants: [got('okra', 0)] })).toEqual([{ want: 'okra', reason: [] }]);
  });
});

describe('causes told in a row', () => {
  it('are each said by their names', () => {
    const names = { 'season too short': 'eine zu kurze Saison', frost: 'Frost' };
    expect(causesSaid('season too short, frost', names)).toBe('eine zu kurze Saison, Frost');
    expect(causesSaid('frost', names)).toBe('Frost');
    expect(causesSaid('hail', names)).toBe('hail');
  });
});
