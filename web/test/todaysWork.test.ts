import { describe, expect, it } from 'vitest';
import type { GardenEvent, Task } from '../src/api/types';
import { parseDay } from '../src/domain/days';
import { isTicked, mostDaysMissed, tickText, todaysWork } from '../src/domain/todaysWork';

const kToday = parseDay('2027-07-20');

const taskOf = (over: Partial<Task>): Task => ({
  kind: 'pick',
  stand: 's1',
  crop: 'carrot',
  crop_name: 'Carrot',
  variety: '',
  place: 'Fence, 0 m to 1 m',
  amount: 'all of it',
  reason: '',
  caution: '',
  due: '2027-07-20',
  latest: '2027-07-27',
  log_event: 'picked',
  log_count: 0,
  log_grams: 100,
  again_count: 0,
  ...over,
});
const because = (key: string, values: Record<string, number> = {}): NonNullable<Task['said']> => ({
  place: [],
  amount: [],
  reason: [{ key, values }],
  caution: [],
});

describe('the work of a day', () => {
  it('is one card for each kind of work and crop, in the order of the most pressing', () => {
    const { now } = todaysWork(
      [
        taskOf({ stand: 's1' }),
        taskOf({ stand: 's9', crop: 'beet' }),
        // Due for days is work of today too.
        taskOf({ stand: 's2', due: '2027-07-12' }),
        taskOf({ stand: 's3', kind: 'protect', log_event: '' }),
        // Tomorrow is another day.
        taskOf({ stand: 's4', due: '2027-07-21' }),
      ],
      kToday,
    );
    expect(now.map(({ tasks }) => tasks.map((task) => task.stand))).toEqual([
      ['s1', 's2'],
      ['s9'],
      ['s3'],
      ['s4'],
    ]);
    expect(new Set(now.map(({ key }) => key)).size).toBe(4);
  });

  it('keeps plants to buy apart from those of the own tray', () => {
    const setOut = { kind: 'set-out', log_event: 'set-out' };
    const { now } = todaysWork(
      [taskOf({ ...setOut, stand: 's1', log_text: 'bought' }), taskOf({ ...setOut, stand: 's2' })],
      kToday,
    );
    expect(now.map(({ tasks }) => tasks.length)).toEqual([1, 1]);
  });
  it('leaves out what was missed and what shows nothing to do yet', () => {
    const work = todaysWork(
      [
        taskOf({ stand: 's1', kind: 'sow', said: because('missed', { days: 50 }) }),
        taskOf({ stand: 's2', kind: 'sow', said: because('missed', { days: 22 }) }),
        taskOf({ stand: 's3', kind: 'check-emergence', said: because('nothing-yet') }),
        taskOf({ stand: 's4', kind: 'check-emergence', said: because('sow-again') }),
      ],
      kToday,
    );
    expect(work.now.flatMap(({ tasks }) => tasks.map((task) => task.stand))).toEqual(['s4']);
    expect(work.missed.map((task) => task.stand)).toEqual(['s1', 's2']);
    expect(mostDaysMissed(work.missed)).toBe(50);
    expect(work.later.map((task) => task.stand)).toEqual(['s3']);
  });
});

describe('work that leaves no entry of its own', () => {
  const cover = taskOf({ kind: 'protect', log_event: '', amount: 'cover on cold nights' });
  const noted = (over: Partial<GardenEvent>): GardenEvent[] => [
    { id: 'e1', date: '2027-07-20', kind: 'noted', stand: 's1', text: tickText(cover), ...over },
  ];
  it('is ticked off by a note for the day', () => {
    expect(isTicked(cover, noted({}), kToday)).toBe(true);
    expect(isTicked(cover, noted({ date: '2027-07-19' }), kToday)).toBe(false);
    expect(isTicked(cover, noted({ stand: 's2' }), kToday)).toBe(false);
    expect(isTicked(cover, noted({ text: 'a fox was here' }), kToday)).toBe(false);
    expect(isTicked(taskOf({ kind: 'harden-off' }), noted({}), kToday)).toBe(false);
  });
});
