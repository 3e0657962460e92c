import { describe, expect, it } from 'vitest';
import {
  bedStay,
  beginsOn,
  cameBought,
  comesBought,
  presence,
  readyOn,
  seasonSpan,
  sowDay,
  toBeBought,
  trayStay,
} from '../src/domain/season';
import { isoDay, makeStand, parseDay } from './helpers';

describe('stays', () => {
  it('takes the bed from sowing to the last pick of 9 years in 10', () => {
    const stay = bedStay(makeStand())!;
    expect([stay.first, stay.mayLeave, stay.last].map(isoDay)).toEqual([
      '2027-04-01',
      '2027-06-20',
      '2027-07-10',
    ]);
    expect(trayStay(makeStand())).toBeNull();
  });
  it('takes the tray first and the bed from setting out when raised indoors', () => {
    const stand = makeStand({ method: 'start-indoors', tray: 'sill' });
    stand.events.push({
      name: 'set-out',
      p10: '2027-04-20',
      p50: '2027-04-22',
      p90: '2027-04-26',
      probability: 1,
    });
    expect([trayStay(stand)!.first, trayStay(stand)!.last].map(isoDay)).toEqual(['2027-04-01', '2027-04-26']);
    expect(isoDay(bedStay(stand)!.first)).toBe('2027-04-22');
    stand.set_out = '2027-04-19';
    expect(isoDay(bedStay(stand)!.first)).toBe('2027-04-19');
    expect(isoDay(trayStay(stand)!.last)).toBe('2027-04-19');
  });
  it('knows bought plants and the day on which the garden begins with them', () => {
    const bought = makeStand({ method: 'start-indoors', sow: '2027-02-10', set_out: '2027-05-10' });
    expect([comesBought(bought), toBeBought(bought), beginsOn(bought)]).toEqual([
      true,
      true,
      parseDay('2027-05-10'),
    ]);
    expect(trayStay(bought)).toBeNull();
    expect(bedStay(bought)?.first).toBe(parseDay('2027-05-10'));
    for (const own of [
      makeStand(),
      makeStand({ ...bought, tray: 'shelf' }),
      makeStand({ ...bought, sown: bought.sow }),
    ]) {
      expect(comesBought(own)).toBe(false);
      expect(beginsOn(own)).toBe(parseDay(own.sow));
    }
    expect(toBeBought({ ...bought, state: 'growing' })).toBe(false);
  });
  it('stays in the tray until today when it was not set out yet', () => {
    const stand = makeStand({ method: 'start-indoors', tray: 'sill', state: 'up' });
    stand.events.push({
      name: 'set-out',
      p10: '2027-04-20',
      p50: '2027-04-22',
      p90: '2027-04-26',
      probability: 1,
    });
    const today = parseDay('2027-05-02');
    expect(trayStay(stand, today)!.last).toBe(today);
    expect(bedStay(stand, today)!.first).toBe(today);
    stand.state = 'growing';
    expect(isoDay(bedStay(stand, today)!.first)).toBe('2027-04-22');
  });
  it('begins on the day of the log, not on the planned one', () => {
    const sown = makeStand({ state: 'sown', sown: '2027-04-15', set_out_on: null });
    expect(isoDay(sowDay(sown))).toBe('2027-04-15');
    expect(isoDay(bedStay(sown)!.first)).toBe('2027-04-15');
    const out = makeStand({
      method: 'start-indoors',
      tray: 'sill',
      state: 'growing',
      set_out: '2027-04-22',
      sown: '2027-04-05',
      set_out_on: '2027-05-03',
    });
    expect(isoDay(trayStay(out)!.first)).toBe('2027-04-05');
    expect(isoDay(trayStay(out)!.last)).toBe('2027-05-03');
    expect(isoDay(bedStay(out)!.first)).toBe('2027-05-03');
  });
  it('has no stay in a tray when it was bought as plants', () => {
    const bought = makeStand({
      method: 'start-indoors',
      tray: 'sill',
      state: 'growing',
      sown: null,
      set_out_on: '2027-05-03',
    });
    expect(cameBought(bought)).toBe(true);
    expect(trayStay(bought)).toBeNull();
    expect(isoDay(bedStay(bought)!.first)).toBe('2027-05-03');
  });
  it('takes no bed when it was given up in its tray, and no day after today', () => {
    const lost = makeStand({
      method: 'start-indoors',
      tray: 'sill',
      state: 'finished',
      sown: '2027-04-05',
      set_out_on: null,
    });
    lost.events.push({
      name: 'set-out',
      p10: '2027-10-01',
      p50: '2027-10-20',
      p90: '2027-11-01',
      probability: 1,
    });
    const today = parseDay('2027-06-01');
    expect(bedStay(lost, today)).toBeNull();
    expect(trayStay(lost, today)!.last).toBe(today);
    const cleared = makeStand({ state: 'finished', sown: '2027-04-01', set_out_on: null });
    expect(bedStay(cleared, today)!.last).toBe(today);
  });
  it('leaves the bed empty when setting out is never expected', () => {
    expect(bedStay(makeStand({ method: 'start-indoors', tray: 'sill' }))).toBeNull();
  });
  it('still draws a stand of which nothing is expected', () => {
    const stay = bedStay(makeStand({ events: [] }))!;
    expect(stay.last - stay.first).toBe(30);
  });
  it('fades from the day it may leave, and never rises again', () => {
    const stay = bedStay(makeStand())!;
    expect(presence(stay, stay.mayLeave)).toBe(1);
    expect(presence(stay, stay.last)).toBeCloseTo(0.1, 12);
    expect(presence(stay, stay.last + 1)).toBe(0);
    for (let day = stay.first; day < stay.last; day += 1)
      expect(presence(stay, day + 1)).toBeLessThanOrEqual(presence(stay, day));
  });
  it('is not ready on days of which nothing is known', () => {
    const stand = makeStand({ ready_daily: { first: '2027-06-01', probability: [0.1, 0.4] } });
    expect(readyOn(stand, parseDay('2027-06-02'))).toBe(0.4);
    expect(readyOn(stand, parseDay('2027-06-03'))).toBe(0);
    expect(readyOn(stand, parseDay('2027-05-31'))).toBe(0);
  });
  it('spans all stays and some time ahead', () => {
    const today = parseDay('2027-04-20');
    expect(seasonSpan([], today)).toEqual({ first: today - 14, last: today + 120 });
    const stay = bedStay(makeStand())!;
    const span = seasonSpan([stay], today);
    expect(span.first).toBeLessThan(stay.first);
    expect(span.last).toBeGreaterThan(stay.last);
  });
});
