import { describe, expect, it } from 'vitest';
import { isoDay, isUnclear, monthStart, needYear, parseDay, weekStart } from '../src/domain/days';

describe('days', () => {
  it('reads and writes every day from 1996 to 2104, over a leap century and one that is not', () => {
    const first = parseDay('1996-01-01');
    const wrong = Array.from({ length: 39_814 }, (_, i) => first + i).filter(
      (day) => parseDay(isoDay(day)) !== day,
    );
    expect(wrong).toEqual([]);
  });
  it('are told with their year where one of them lies in another than today', () => {
    const today = parseDay('2027-12-30');
    expect(needYear(['2027-01-01', '2027-12-31'].map(parseDay), today)).toBe(false);
    expect(needYear(['2026-04-10', '2027-04-10'].map(parseDay), today)).toBe(true);
    expect(needYear(['2028-01-01'].map(parseDay), today)).toBe(true);
    expect(needYear([], today)).toBe(false);
  });
  it('tells the year of what could be taken for a day of this one', () => {
    const unclear = (day: string, today: string) => isUnclear(parseDay(day), parseDay(today));
    expect(unclear('2027-02-15', '2026-05-20')).toBe(true);
    expect(unclear('2026-07-20', '2027-03-01')).toBe(true);
    expect(unclear('2027-02-15', '2026-11-20')).toBe(false);
    expect(unclear('2026-11-15', '2026-05-20')).toBe(false);
    // Before the day is known.
    expect(isUnclear(parseDay('2026-11-15'), NaN)).toBe(false);
  });
  it('knows no day that does not exist', () => {
    for (const text of ['2027-02-29', '1900-02-29', '2027-04-31', '2027-13-01', '2027-1-1', '', 'soon']) {
      expect(parseDay(text), text).toBeNaN();
    }
    expect(parseDay('2028-02-29')).not.toBeNaN();
  });
  it('begins weeks on Monday, across the new year', () => {
    expect(isoDay(weekStart(parseDay('2027-01-01')))).toBe('2026-12-28');
  });
  it('begins months across the new year', () => {
    expect(isoDay(monthStart(parseDay('2027-12-31'), 1))).toBe('2028-01-01');
    expect(isoDay(monthStart(parseDay('2028-02-29')))).toBe('2028-02-01');
  });
});
