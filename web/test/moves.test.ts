import { describe, expect, it } from 'vitest';
import type { Bed } from '../src/api/types';
import {
  canGoBackTo,
  canMove,
  collisions,
  inTheWay,
  moveBy,
  newCollisions,
  placeOf,
  sameMove,
} from '../src/domain/moves';
import { makeStand, makeStay, parseDay } from './helpers';

const bed: Bed = { id: 'long', name: 'Long bed', length_m: 6, width_m: 1.2, sun: 'full', kind: 'raised' };
const today = parseDay('2027-03-01');

describe('moving a stand', () => {
  it('shifts the sowing and a decided day of setting out together', () => {
    const stand = makeStand({ set_out: '2027-04-25' });
    expect(moveBy(stand, 7, bed, 2, today)).toEqual({
      bed: 'long',
      from_m: 2,
      to_m: 3,
      sow: '2027-04-08',
      set_out: '2027-05-02',
    });
  });
  it('never leaves the bed and never goes before today', () => {
    const stand = makeStand({ to_m: 1.5 });
    for (let from = -3; from < 9; from += 0.13) {
      const move = moveBy(stand, -400, bed, from, today);
      expect(move.from_m).toBeGreaterThanOrEqual(0);
      expect(move.to_m).toBeLessThanOrEqual(6 + 1e-9);
      expect(move.to_m - move.from_m).toBeCloseTo(1.5, 9);
      expect(move.sow).toBe('2027-03-01');
    }
  });
  it('takes the day of setting out of bought plants for their own: they were sown long before today', () => {
    const stand = makeStand({
      method: 'start-indoors',
      sow: '2027-02-10',
      set_out: '2027-03-10',
      comes_bought: true,
    });
    const earlier = moveBy(stand, -7, bed, 2, today);
    expect([earlier.sow, earlier.set_out]).toEqual(['2027-02-03', '2027-03-03']);
    const earliest = moveBy(stand, -70, bed, 2, today);
    expect([earliest.sow, earliest.set_out]).toEqual(['2027-02-01', '2027-03-01']);
  });
  it('is undone by the place it had', () => {
    const stand = makeStand();
    expect(sameMove(moveBy(stand, 0, bed, stand.from_m, today), placeOf(stand))).toBe(true);
    expect(sameMove(moveBy(stand, 1, bed, stand.from_m, today), placeOf(stand))).toBe(false);
  });
  it('can be undone as long as the day it had is not past', () => {
    expect(canGoBackTo(makeStand({ sow: '2027-03-01' }), today)).toBe(true);
    expect(canGoBackTo(makeStand({ sow: '2027-02-28' }), today)).toBe(false);
    const bought = { method: 'start-indoors', sow: '2027-02-10', comes_bought: true };
    expect(canGoBackTo(makeStand({ ...bought, set_out: '2027-03-10' }), today)).toBe(true);
    expect(canGoBackTo(makeStand({ ...bought, set_out: '2027-02-27' }), today)).toBe(false);
  });
  it('keeps a place between the steps when it moves in time alone, and takes a step when it is pushed along', () => {
    const stand = makeStand({ from_m: 1.808, to_m: 2.433 });
    for (const nudge of [0, 0.02, -0.02]) {
      const later = moveBy(stand, 7, bed, stand.from_m + nudge, today);
      expect([later.from_m, later.to_m]).toEqual([1.808, 2.433]);
    }
    expect(moveBy(stand, 0, bed, stand.from_m + 0.06, today).from_m).toBe(1.85);
  });
  it('is for what is still to be done', () => {
    expect(canMove(makeStand())).toBe(true);
    expect(canMove(makeStand({ state: 'sown' }))).toBe(false);
  });
});

describe('collisions', () => {
  const stay = makeStay('a', '2027-04-01', '2027-06-01', { from_m: 1, to_m: 2 });
  const others = [
    makeStay('touches', '2027-04-01', '2027-06-01', { from_m: 2, to_m: 3 }),
    makeStay('before', '2027-02-01', '2027-03-31', { from_m: 1, to_m: 2 }),
    makeStay('over', '2027-06-01', '2027-07-01', { from_m: 1.9, to_m: 3 }),
    makeStay('elsewhere', '2027-04-01', '2027-06-01', { bed: 'low', from_m: 1, to_m: 2 }),
    makeStay('a', '2027-04-01', '2027-06-01', { from_m: 1, to_m: 2 }),
  ];
  it('are with those that need the same room on the same day, not with those that touch', () => {
    expect(collisions(stay, others).map((each) => each.stand.id)).toEqual(['over']);
  });
  it('that are there already hold nothing back, new ones do', () => {
    const later = makeStay('a', '2027-04-02', '2027-06-02', { from_m: 1, to_m: 2 });
    expect(newCollisions(later, stay, others)).toEqual([]);
    expect(newCollisions(later, null, others).map((each) => each.stand.id)).toEqual(['over']);
    const aside = makeStay('a', '2027-04-01', '2027-06-01', { from_m: 2, to_m: 3 });
    expect(newCollisions(aside, stay, others).map((each) => each.stand.id)).toEqual(['touches']);
  });
  it('are not with what is over, on its last day neither', () => {
    const cleared = makeStay('cleared', '2027-02-01', '2027-04-01', {
      from_m: 1,
      to_m: 2,
      state: 'finished',
      over_on: '2027-04-01',
    });
    expect(collisions(stay, [cleared])).toEqual([]);
  });
  it('of a stand as it would be are told against what stands, but for what it stood on before', () => {
    const stays = [makeStay('over', '2027-04-15', '2027-07-01', { from_m: 0.5, to_m: 3 })];
    const before = makeStand({ id: 'a', from_m: 4, to_m: 5 });
    const after = makeStand({ id: 'a', from_m: 1, to_m: 2 });
    expect(inTheWay(after, before, stays, today).map((each) => each.stand.id)).toEqual(['over']);
    expect(inTheWay(after, makeStand({ id: 'a', from_m: 2, to_m: 3 }), stays, today)).toEqual([]);
    expect(inTheWay(makeStand({ id: 'a', bed: '' }), before, stays, today)).toEqual([]);
  });
  it('are mutual', () => {
    for (const other of others.slice(0, 4)) {
      expect(collisions(stay, [other]).length).toBe(collisions(other, [stay]).length);
    }
  });
});
