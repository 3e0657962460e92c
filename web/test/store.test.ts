import { describe, expect, it } from 'vitest';
import type { GardenEvent, StoreLot } from '../src/api/types';
import { parseDay } from '../src/domain/days';
import {
  ageShare,
  byCrop,
  notStored,
  pressing,
  storable,
  takenFromLot,
  withWaiting,
} from '../src/domain/store';
import { makeStand } from './helpers';

const lot = (over: Partial<StoreLot> = {}): StoreLot => ({
  id: 'l1',
  crop: 'beet',
  crop_name: 'Beet',
  place: 'fridge',
  stored: '2027-09-01',
  grams: 1000,
  eat_by: '2027-09-15',
  age_days: 0,
  good_share: 1,
  life_days: { kitchen: 2, fridge: 14, best: 150 },
  handling: '',
  ...over,
});
const day = parseDay;

describe('how pressing a lot is', () => {
  it('goes by the days left, and the last day is not past', () => {
    expect(pressing(lot(), day('2027-09-16'))).toBe('past');
    expect(pressing(lot(), day('2027-09-15'))).toBe('now');
    expect(pressing(lot(), day('2027-09-12'))).toBe('now');
    expect(pressing(lot(), day('2027-09-11'))).toBe('soon');
    expect(pressing(lot({ eat_by: '2028-02-01' }), day('2027-09-11'))).toBe('later');
  });
  it('has run its whole life when the life is none', () => {
    expect(ageShare(lot({ eat_by: '2027-09-01' }), day('2027-09-01'))).toBe(1);
    expect(ageShare(lot(), day('2027-09-08'))).toBeCloseTo(0.5);
    expect(ageShare(lot(), day('2027-08-08'))).toBe(0);
  });
});

describe('what waits to be sent', () => {
  const eaten = (grams: number, id = 'e1'): GardenEvent => ({
    id,
    date: '2027-09-05',
    kind: 'eaten',
    target: 'l1',
    grams,
  });
  it('is taken off at once, and an undo puts it back', () => {
    expect(withWaiting([lot()], [eaten(300)])[0]?.grams).toBe(700);
    expect(withWaiting([lot()], [eaten(300), eaten(700, 'e2')])).toEqual([]);
    const undo: GardenEvent = { id: 'c', date: '2027-09-05', kind: 'corrected', target: 'e1' };
    expect(withWaiting([lot()], [eaten(300), undo])[0]?.grams).toBe(1000);
    expect(withWaiting([lot({ id: 'other' })], [eaten(300)])[0]?.grams).toBe(1000);
  });
  it('takes the whole lot when all but the last gram is named', () => {
    expect(takenFromLot(lot({ grams: 503.4 }), 'eaten', 503, day('2027-09-05'), 'x').grams).toBe(503.4);
    expect(takenFromLot(lot(), 'discarded', 200, day('2027-09-05'), 'x')).toEqual({
      id: 'x',
      date: '2027-09-05',
      kind: 'discarded',
      target: 'l1',
      grams: 200,
    });
  });
});

describe('sums of the store', () => {
  it('add the lots of a crop, the heaviest first', () => {
    const sums = byCrop([
      lot(),
      lot({ id: 'l2', crop: 'carrot', crop_name: 'Carrot', grams: 2500 }),
      lot({ id: 'l3' }),
    ]);
    expect(sums.map((sum) => [sum.crop, sum.grams, sum.lots])).toEqual([
      ['carrot', 2500, 1],
      ['beet', 2000, 2],
    ]);
  });
});

describe('what can be put by', () => {
  const ready = { first: '2027-06-01', probability: [0.5, 0.9] };
  const ids = (stands: ReturnType<typeof makeStand>[], on: string) =>
    storable(stands, day(on)).map((stand) => stand.id);

  it('holds what may be ripe by its days, though nobody counted it, and what was picked', () => {
    const sown = makeStand({ id: 'sown', state: 'sown', ready_daily: ready });
    const grown = makeStand({ id: 'grown', state: 'growing' });
    const early = makeStand({ id: 'early', state: 'growing', facts: { first_picked: '2027-05-20' } });
    const planned = makeStand({ id: 'planned', state: 'planned', ready_daily: ready });
    expect(ids([grown, planned, sown, early], '2027-05-31')).toEqual(['early']);
    expect(ids([grown, planned, sown], '2027-06-02')).toEqual(['sown', 'grown']);
  });

  it('holds what is over for a fortnight only', () => {
    const over = makeStand({ id: 'over', state: 'finished', over_on: '2027-07-01' });
    expect(ids([over], '2027-07-15')).toEqual(['over']);
    expect(ids([over], '2027-07-16')).toEqual([]);
    expect(ids([makeStand({ state: 'finished' })], '2027-07-16')).toEqual([]);
  });

  it('leaves out what is never expected to be picked', () => {
    expect(ids([makeStand({ state: 'sown', events: [] })], '2027-12-01')).toEqual([]);
  });
});

describe('what was picked and is not stored', () => {
  const event = (kind: string, date: string, grams: number, stand = 's1') => ({
    id: `${kind}${date}${grams}`,
    ...{ kind, date, grams, stand },
  });
  it('is what these days brought; the rest has been eaten', () => {
    const log = [
      event('picked', '2027-07-01', 900),
      event('picked', '2027-07-19', 500),
      event('stored', '2027-07-19', 330),
      event('picked', '2027-07-20', 4000, 's2'),
    ];
    expect(notStored('s1', log, day('2027-07-20'))).toEqual({ everG: 1070, freshG: 170 });
    expect(notStored('s3', log, day('2027-07-20'))).toEqual({ everG: 0, freshG: 0 });
  });
  it('is nothing where more was stored than picked', () => {
    const log = [event('picked', '2027-07-19', 170), event('stored', '2027-07-19', 500)];
    expect(notStored('s1', log, day('2027-07-20'))).toEqual({ everG: 0, freshG: 0 });
  });
});
