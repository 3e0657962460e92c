import { describe, expect, it } from 'vitest';
import type { SowingWindow } from '../src/api/types';
import { dayOfYear, isOpen, kYearDays, stretches, windowRows } from '../src/domain/windows';

const window = (from: string, to: string, crop = 'garlic'): SowingWindow => ({
  crop,
  method: 'direct-sow',
  from,
  to,
  success: 0.9,
});

describe('days of a year of windows', () => {
  it('run from 0 to 364, and a leap day counts as the day before', () => {
    expect(dayOfYear('01-01')).toBe(0);
    expect(dayOfYear('12-31')).toBe(kYearDays - 1);
    expect(dayOfYear('02-29')).toBe(dayOfYear('02-28'));
    expect(dayOfYear('13-01')).toBeNaN();
    expect(dayOfYear('never')).toBeNaN();
  });
});

describe('a window', () => {
  it('is cut in two where it wraps the new year', () => {
    expect(stretches(window('09-25', '01-10'))).toEqual([
      { from: dayOfYear('09-25'), to: kYearDays },
      { from: 0, to: 10 },
    ]);
    expect(stretches(window('01-01', '12-31'))).toEqual([{ from: 0, to: kYearDays }]);
  });
  it('is open on its first and last day and closed beside them', () => {
    for (const day of ['09-25', '12-31', '01-01', '01-10'])
      expect(isOpen(window('09-25', '01-10'), day)).toBe(true);
    for (const day of ['09-24', '01-11', '06-15']) expect(isOpen(window('09-25', '01-10'), day)).toBe(false);
  });
});

describe('rows', () => {
  it('hold all windows of a crop and method, of the crops that are kept', () => {
    const rows = windowRows(
      [window('02-01', '03-01', 'pea'), window('09-25', '01-10'), window('08-01', '09-01', 'pea')],
      (crop) => crop === 'pea',
      (row) => row.cropName,
      'en',
    );
    expect(rows).toHaveLength(1);
    expect(rows[0]?.windows.map((each) => each.from)).toEqual(['02-01', '08-01']);
  });
  it('stand in the order of the names that are shown', () => {
    const german: Record<string, string> = { pea: 'Erbse', garlic: 'Knoblauch', arugula: 'Rauke' };
    const rows = windowRows(
      ['arugula', 'garlic', 'pea'].map((crop) => window('02-01', '03-01', crop)),
      () => true,
      (row) => german[row.crop]!,
      'de',
    );
    expect(rows.map((row) => row.crop)).toEqual(['pea', 'garlic', 'arugula']);
  });
});
