import { describe, expect, it } from 'vitest';
import type { SowingWindow } from '../src/api/types';
import {
  besidesBought,
  canBeSetOut,
  fieldOfProblem,
  fittedFrom,
  inGround,
  isMaking,
  type OwnStandDraft,
  ownStandOf,
  saysBought,
  setOutCount,
  waitsForPlants,
} from '../src/domain/ownStand';
import { bedStay } from '../src/domain/season';
import { spacingStep, stepped } from '../src/domain/stepper';
import { makeStand, parseDay } from './helpers';

const draft: OwnStandDraft = {
  crop: 'leek',
  variety: '',
  bed: 'b1',
  clumps: 24,
  day: '2027-05-20',
  origin: 'here',
  tray: 't1',
  spacingMm: null,
  fromM: null,
  perClump: null,
  size: 'large',
};

describe('what is sent of a stand put in by hand', () => {
  it('leaves to the crop what was left as usual', () => {
    expect(ownStandOf(draft)).toEqual({ crop: 'leek', bed: 'b1', clumps: 24, day: '2027-05-20' });
  });
  it('says either that the plants were bought or which tray they are raised in', () => {
    expect(ownStandOf({ ...draft, origin: 'bought' })).toEqual({ ...ownStandOf(draft), bought: true });
    expect(ownStandOf({ ...draft, origin: 'tray' })).toEqual({ ...ownStandOf(draft), tray: 't1' });
  });
  it('sends what was set, the start of the bed too', () => {
    const set = { variety: 'v', spacingMm: 152.4, fromM: 0, perClump: 4, size: 'small' as const };
    expect(ownStandOf({ ...draft, ...set })).toEqual({
      ...ownStandOf(draft),
      variety: 'v',
      spacing_mm: 152.4,
      from_m: 0,
      plants_per_clump: 4,
      size: 'small',
    });
  });
});

describe('a problem', () => {
  it('belongs beside the field that the server names, by itself or as part of the garden', () => {
    expect(['clumps', 'stands[3].spacing_mm', 'bed'].map(fieldOfProblem)).toEqual([
      'clumps',
      'spacing_mm',
      'bed',
    ]);
  });
  it('of the plants being bought belongs where they are said to come from', () => {
    expect([fieldOfProblem('bought'), fieldOfProblem('tray')]).toEqual(['tray', 'tray']);
  });
  it('of anything else belongs to the whole', () => {
    expect([fieldOfProblem(''), fieldOfProblem('site'), fieldOfProblem('weather')]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });
});

describe('a stand', () => {
  const inTray = { method: 'start-indoors', tray: 't1' };
  it('is in the ground once sown there or set out, until it is cleared', () => {
    expect(inGround(makeStand({ state: 'sown' }))).toBe(true);
    expect(inGround(makeStand({ state: 'growing', ...inTray }))).toBe(true);
    expect(inGround(makeStand({ state: 'up', ...inTray }))).toBe(false);
    expect(inGround(makeStand({ state: 'planned' }))).toBe(false);
    expect(inGround(makeStand({ state: 'finished' }))).toBe(false);
  });
  it('waits for plants while it is in its tray, or is not sown in place yet', () => {
    expect(waitsForPlants(makeStand({ state: 'up', ...inTray }))).toBe(true);
    expect(waitsForPlants(makeStand({ state: 'growing', ...inTray }))).toBe(false);
    expect(waitsForPlants(makeStand({ state: 'planned' }))).toBe(true);
    expect(waitsForPlants(makeStand({ state: 'sown' }))).toBe(false);
  });
  it('takes plants only where its crop has days for setting out', () => {
    const window = (crop: string, method: SowingWindow['method']): SowingWindow => ({
      crop,
      method,
      from: '03-01',
      to: '05-01',
      success: 0.5,
    });
    const windows = [
      window('carrot', 'direct-sow'),
      window('leek', 'direct-sow'),
      window('leek', 'start-indoors'),
    ];
    expect([canBeSetOut('leek', windows), canBeSetOut('carrot', windows)]).toEqual([true, false]);
  });
  it('is set out by clumps from a tray, and by plants where they were bought', () => {
    const stand = makeStand({ clumps: 12, plants_per_clump: 4 });
    expect([setOutCount(stand, false), setOutCount(stand, true)]).toEqual([12, 48]);
  });
  it('of bought plants takes its bed from the day they were set out, not from a sowing elsewhere', () => {
    const stand = makeStand({
      method: 'start-indoors',
      tray: '',
      state: 'growing',
      sow: '2027-02-10',
      events: [
        { name: 'set-out', p10: '2027-04-20', p50: '2027-04-20', p90: '2027-04-20', probability: 1 },
        { name: 'last-pick', p10: '2027-08-01', p50: '2027-08-10', p90: '2027-08-20', probability: 1 },
      ],
    });
    expect(bedStay(stand, parseDay('2027-05-01'))?.first).toBe(parseDay('2027-04-20'));
  });
  it('put right stays inside its bed', () => {
    expect([fittedFrom(5.8, 1, 6), fittedFrom(-1, 1, 6), fittedFrom(2, 1, 6), fittedFrom(1, 7, 6)]).toEqual([
      5, 0, 2, 0,
    ]);
  });
});

describe('the text of a setting out', () => {
  it('says that the plants were bought before its first comma, as the program reads it', () => {
    expect(['bought', ' bought , rows 30 cm', 'bought,'].map(saysBought)).toEqual([true, true, true]);
    expect(['not bought', 'rows 30 cm', 'rows, bought', undefined].map(saysBought)).toEqual(
      Array(4).fill(false),
    );
    // As the program reads it (tests/book/fold_test.cpp).
    expect(['Bought', 'bought at the market', 'Bought, rows 60 cm'].map(saysBought)).toEqual(
      Array(3).fill(true),
    );
    expect(['boughten', ''].map(saysBought)).toEqual([false, false]);
    expect(['bought', 'Bought at the market', 'bought, rows 60 cm'].map(besidesBought)).toEqual([
      '',
      'at the market',
      'rows 60 cm',
    ]);
  });
});

describe('the stepper of a spacing', () => {
  it('goes by what is paced off: centimetres or inches, coarser where plants stand far apart', () => {
    expect(stepped(100, 1, spacingStep('metric'))).toBe(110);
    expect(stepped(200, 1, spacingStep('metric'))).toBe(250);
    expect(stepped(200, -1, spacingStep('metric'))).toBe(190);
    expect(stepped(101.6, 1, spacingStep('us'))).toBeCloseTo(127, 9);
    expect(stepped(304.8, 1, spacingStep('us'))).toBeCloseTo(355.6, 9);
  });
});

describe('the entry by which a stand was put in by hand', () => {
  it('is told by its id, not by what it says', () => {
    const entry = { id: 'own-s1-2027-05-20', date: '2027-05-20', kind: 'sown' as const, stand: 's1' };
    expect(isMaking(entry, 's1')).toBe(true);
    expect(isMaking({ ...entry, stand: 's2' }, 's2')).toBe(false);
    expect(isMaking({ ...entry, id: 'own-s12-2027-05-20' }, 's1')).toBe(false);
  });
});
