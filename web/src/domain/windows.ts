// Sowing windows on the year that begins with a given month, so that a window over the new year can be drawn.

import type { SowingWindow } from '../api/types';

/** Days before each month of a year of 365 days. */
const kMonthStarts = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
export const kYearDays = 365;

/** 0 for "01-01" … 364 for "12-31"; 29 February counts as the 28th. NaN for anything else. */
export function dayOfYear(text: string): number {
  const match = /^(\d{2})-(\d{2})$/.exec(text);
  const start = match ? kMonthStarts[Number(match[1]) - 1] : undefined;
  if (!match || start === undefined) return NaN;
  const next = kMonthStarts[Number(match[1])] ?? kYearDays;
  return Math.min(start + Number(match[2]) - 1, next - 1);
}

/** A stretch of the year from its first to past its last day, cut in two where it wraps the new year. */
export function stretches(window: SowingWindow): { from: number; to: number }[] {
  const from = dayOfYear(window.from);
  const to = dayOfYear(window.to);
  if (!Number.isFinite(from) || !Number.isFinite(to)) return [];
  if (from <= to) return [{ from, to: to + 1 }];
  return [
    { from, to: kYearDays },
    { from: 0, to: to + 1 },
  ];
}

/** True when a day of the year ("MM-DD") lies in the window. */
export function isOpen(window: SowingWindow, day: string): boolean {
  const at = dayOfYear(day);
  return stretches(window).some((each) => each.from <= at && at < each.to);
}

export interface WindowRow {
  crop: string;
  cropName: string;
  method: SowingWindow['method'];
  windows: SowingWindow[];
}

/** One row a crop and method, by the crops' names as they are shown; of one crop in the order told. */
export function windowRows(
  windows: SowingWindow[],
  keep: (crop: string) => boolean,
  nameOf: (row: WindowRow) => string,
  locale: string,
): WindowRow[] {
  const rows = new Map<string, WindowRow>();
  for (const window of windows) {
    if (!keep(window.crop)) continue;
    const key = `${window.crop}/${window.method}`;
    const row = rows.get(key);
    if (row) row.windows.push(window);
    else
      rows.set(key, {
        crop: window.crop,
        cropName: window.crop_name ?? window.crop,
        method: window.method,
        windows: [window],
      });
  }
  return [...rows.values()].sort((a, b) => nameOf(a).localeCompare(nameOf(b), locale));
}
