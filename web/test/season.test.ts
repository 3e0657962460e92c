import { describe, expect, it } from 'vitest';
import {
  bedStay,
  beginsOn,
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
  it('begins with the setting out where the plants are bought, as the server tells, else with the sowing', () => {
    const bought = makeStand({
      method: 'start-indoors',
      sow: '2027-02-10',
      set_out: '2027-05-10',
      comes_bought: true,
    });
    expect([toBeBought(bought), beginsOn(bought)]).toEqual([true, parseDay('2027-05-10')]);
    expect(trayStay(bought)).toBeNull();
    expect(bedStay(bought)?.first).toBe(parseDay('2027-05-10'));
    const there = { ...bought, state: 'growing' as const, set_out: null, set_out_on: '2027-05-12' };
    expect([toBeBought(there), beginsOn(there)]).toEqual([false, parseDay('2027-05-12')]);
    const own = makeStand({ ...bought, comes_bought: false });
    expect([toBeBought(own), beginsOn(own)]).toEqual([false, parseDay('2027-02-10')]);
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
  it('stays in its tray from the plan’s day where nobody logged the sowing of what was set out of it', () => {
    const raised = makeStand({
      method: 'start-indoors',
      tray: 'sill',
      state: 'growing',
      sown: null,
      set_out_on: '2027-05-03',
    });
    expect(isoDay(beginsOn(raised))).toBe('2027-04-01');
    expect([trayStay(raised)!.first, trayStay(raised)!.last].map(isoDay)).toEqual([
      '2027-04-01',
      '2027-05-03',
    ]);
    expect(isoDay(bedStay(raised)!.first)).toBe('2027-05-03');
    expect(trayStay({ ...raised, set_out_on: '2027-03-20' })).toBeNull();
  });
  it('takes no bed when it was given up in its tray', () => {
    const lost = makeStand({
      method: 'start-indoors',
      tray: 'sill',
      state: 'finished',
      sown: '2027-04-05',
      set_out_on: null,
      over_on: '2027-05-20',
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
    expect(isoDay(trayStay(lost, today)!.last)).toBe('2027-05-20');
  });
  it('is there to the day on which it ended and no longer, whatever was expected and whenever that is looked at', () => {
    for (const over_on of ['2027-05-20', '2027-08-15']) {
      const cleared = makeStand({ state: 'finished', sown: '2027-04-01', set_out_on: null, over_on });
      for (const today of ['2027-06-01', '2027-10-01'].map(parseDay)) {
        const { first, mayLeave, last } = bedStay(cleared, today)!;
        expect([first, mayLeave, last].map(isoDay)).toEqual(['2027-04-01', over_on, over_on]);
      }
    }
  });
  it('leaves its tray when it is set out, not when it is over', () => {
    const eaten = makeStand({
      method: 'start-indoors',
      tray: 'sill',
      state: 'finished',
      sown: '2027-04-05',
      set_out_on: '2027-05-03',
      over_on: '2027-07-01',
    });
    expect(isoDay(trayStay(eaten)!.last)).toBe('2027-05-03');
    expect(isoDay(bedStay(eaten)!.last)).toBe('2027-07-01');
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
