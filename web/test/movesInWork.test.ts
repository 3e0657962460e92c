import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Stand } from '../src/api/types';
import { placeOf, shiftedStand, type Move } from '../src/domain/moves';
import { MovesInWork } from '../src/domain/movesInWork';
import { makeStand, makeStay } from './helpers';

const later = (stand: Stand, sow: string): Move => ({ ...placeOf(stand), sow });

/** A garden whose server answers one question after another when told to, and has no room on some days. */
function slowGarden({ taken = [] }: { taken?: string[] } = {}) {
  const stands = new Map(['a', 'b'].map((id) => [id, makeStand({ id })]));
  const asked: string[] = [];
  const answers: ((how: 'answer' | 'fail') => void)[] = [];
  const seen = {
    drawn: [] as string[],
    moved: [] as string[],
    noRoom: [] as string[],
    failed: [] as unknown[],
  };
  const wait = <T>(what: string, answer: () => T) => {
    asked.push(what);
    return new Promise<T>((resolve, reject) =>
      answers.push((how) => (how === 'answer' ? resolve(answer()) : reject(new Error(what)))),
    );
  };
  const moves = new MovesInWork({
    now: (id) => stands.get(id),
    tryOut: (id, to) => wait(`try ${id} ${to.sow}`, () => shiftedStand(stands.get(id)!, to)),
    taken: ({ sow }) => (taken.includes(sow) ? [makeStay('there', sow, sow)] : []),
    keep: (id, to) =>
      wait(`keep ${id} ${to.sow}`, () => {
        stands.set(id, { ...stands.get(id)!, ...to });
        return true;
      }),
    draw: (inWork) => (seen.drawn = inWork.map(({ id, sow }) => `${id} ${sow}`)),
    moved: ({ id, sow }) => seen.moved.push(`${id} from ${sow}`),
    noRoom: ({ id }, stays) => seen.noRoom.push(`${id} for ${stays[0]!.stand.id}`),
    failed: (failure) => seen.failed.push(failure),
  });
  /** Lets the server answer what is asked by then. */
  const settle = async (how: 'answer' | 'fail' = 'answer') => {
    await vi.advanceTimersByTimeAsync(0);
    answers.shift()?.(how);
    await vi.advanceTimersByTimeAsync(0);
  };
  const settleAll = async () => {
    do await settle();
    while (answers.length > 0);
  };
  const sowOf = (id: string) => stands.get(id)!.sow;
  return { stands, asked, seen, moves, settle, settleAll, sowOf };
}

const kRested = 1000;

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe('a move that is let go', () => {
  it('is tried, kept, and told with what it was before', async () => {
    const { stands, asked, seen, moves, settleAll, sowOf } = slowGarden();
    void moves.letGo(stands.get('a')!, later(stands.get('a')!, '2027-04-09'));
    expect(seen.drawn).toEqual(['a 2027-04-09']);
    await settleAll();
    expect(asked).toEqual(['try a 2027-04-09', 'keep a 2027-04-09']);
    expect(sowOf('a')).toBe('2027-04-09');
    expect(seen).toEqual({ drawn: [], moved: ['a from 2027-04-01'], noRoom: [], failed: [] });
  });
  it('is kept, and drawn till then, whatever is carried and given up before its answer comes', async () => {
    const { stands, seen, moves, settle, settleAll, sowOf } = slowGarden();
    void moves.letGo(stands.get('a')!, later(stands.get('a')!, '2027-04-09'));
    moves.giveUp();
    expect(seen.drawn).toEqual(['a 2027-04-09']);
    moves.carry(stands.get('b')!, later(stands.get('b')!, '2027-05-01'));
    expect(seen.drawn).toEqual(['a 2027-04-09', 'b 2027-05-01']);
    await settle();
    await settle();
    expect(sowOf('a')).toBe('2027-04-09');
    expect(seen.drawn).toEqual(['b 2027-05-01']);
    moves.giveUp();
    await settleAll();
    expect(seen.drawn).toEqual([]);
    expect(sowOf('b')).toBe('2027-04-01');
  });
  it('goes back and says what stands there where it finds no room', async () => {
    const { stands, asked, seen, moves, settleAll } = slowGarden({ taken: ['2027-04-09'] });
    void moves.letGo(stands.get('a')!, later(stands.get('a')!, '2027-04-09'));
    await settleAll();
    expect(asked).toEqual(['try a 2027-04-09']);
    expect(seen).toEqual({ drawn: [], moved: [], noRoom: ['a for there'], failed: [] });
  });
  it('asks for nothing where it is let go where it was', async () => {
    const { stands, asked, seen, moves, settleAll } = slowGarden();
    void moves.letGo(stands.get('a')!, placeOf(stands.get('a')!));
    await settleAll();
    expect([asked, seen.drawn, seen.moved]).toEqual([[], [], []]);
  });
  it('goes back and is told where it could not be tried, and holds up none after it', async () => {
    const { stands, seen, moves, settle, settleAll, sowOf } = slowGarden();
    void moves.letGo(stands.get('a')!, later(stands.get('a')!, '2027-04-09'));
    void moves.letGo(stands.get('b')!, later(stands.get('b')!, '2027-04-10'));
    await settle('fail');
    expect(seen.failed).toHaveLength(1);
    expect(seen.drawn).toEqual(['b 2027-04-10']);
    await settleAll();
    expect([sowOf('a'), sowOf('b')]).toEqual(['2027-04-01', '2027-04-10']);
  });
});

describe('pushes that come faster than the answers', () => {
  const push = (moves: MovesInWork, stands: Map<string, Stand>, days: string[]) => {
    for (const sow of days) void moves.letGo(stands.get('a')!, later(stands.get('a')!, sow));
  };
  it('lead to the last at once', async () => {
    const { stands, asked, seen, moves, settleAll, sowOf } = slowGarden();
    push(moves, stands, ['2027-04-02', '2027-04-03', '2027-04-04']);
    await settleAll();
    expect(asked.filter((each) => each.startsWith('keep')).at(-1)).toBe('keep a 2027-04-04');
    expect(asked).not.toContain('try a 2027-04-03');
    expect([sowOf('a'), seen.drawn]).toEqual(['2027-04-04', []]);
  });
  it('lead as far as there is room', async () => {
    const { stands, seen, moves, settleAll, sowOf } = slowGarden({ taken: ['2027-04-04'] });
    push(moves, stands, ['2027-04-02', '2027-04-03', '2027-04-04']);
    await settleAll();
    expect(sowOf('a')).toBe('2027-04-03');
    expect(seen.noRoom).toEqual(['a for there']);
  });
  it('are undone to where it was before the last one kept, after all that was let go', async () => {
    const { stands, moves, settleAll, sowOf } = slowGarden();
    const before = stands.get('a')!;
    push(moves, stands, ['2027-04-02']);
    const back = moves.putBack(before);
    await settleAll();
    expect(await back).toBe(true);
    expect(sowOf('a')).toBe('2027-04-01');
  });
});

describe('a move that is carried', () => {
  it('is tried once it rests, and never kept', async () => {
    const { stands, asked, seen, moves, settleAll, sowOf } = slowGarden();
    const a = stands.get('a')!;
    moves.carry(a, later(a, '2027-04-05'));
    moves.carry(a, later(a, '2027-04-06'));
    expect(asked).toEqual([]);
    await vi.advanceTimersByTimeAsync(kRested);
    await settleAll();
    expect(asked).toEqual(['try a 2027-04-06']);
    expect([sowOf('a'), seen.drawn]).toEqual(['2027-04-01', ['a 2027-04-06']]);
  });
  it('is drawn no more once given up, however late its answer comes', async () => {
    const { stands, seen, moves, settle } = slowGarden();
    moves.carry(stands.get('a')!, later(stands.get('a')!, '2027-04-05'));
    await vi.advanceTimersByTimeAsync(kRested);
    moves.giveUp();
    await settle();
    expect(seen.drawn).toEqual([]);
  });
});
