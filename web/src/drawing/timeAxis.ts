// The map between days and pixels across the sheet, and the marks along it.

import { monthStart, weekStart, type Day } from '../domain/days';

/** CSS pixels a day takes. */
export type PixelsPerDay = number;

export interface TimeAxis {
  first: Day;
  last: Day;
  pixelsPerDay: PixelsPerDay;
}

export type Zoom = 'year' | 'month' | 'week';

/** Days that fill the width of the sheet at each zoom. */
export const kDaysAcross: Record<Zoom, number> = { year: 365, month: 62, week: 14 };

export function axisFor(zoom: Zoom, first: Day, last: Day, widthPx: number): TimeAxis {
  const across = zoom === 'year' ? Math.min(kDaysAcross.year, last - first) : kDaysAcross[zoom];
  return { first, last, pixelsPerDay: Math.max(1.6, widthPx / across) };
}

export function xOf(axis: TimeAxis, day: Day): number {
  return (day - axis.first) * axis.pixelsPerDay;
}

export function dayAt(axis: TimeAxis, x: number): Day {
  return axis.first + Math.floor(x / axis.pixelsPerDay);
}

export function widthOf(axis: TimeAxis): number {
  return (axis.last - axis.first + 1) * axis.pixelsPerDay;
}

export interface AxisMark {
  day: Day;
  kind: 'week' | 'day';
}

/** The first of every month on the axis. */
export function monthMarks(first: Day, last: Day): Day[] {
  const marks: Day[] = [];
  for (let day = monthStart(first); day <= last; day = monthStart(day, 1)) if (day >= first) marks.push(day);
  return marks;
}

/** Between two days: weeks once a week is wide enough to say something, days once a day is. */
export function minorMarks(pixelsPerDay: PixelsPerDay, first: Day, last: Day): AxisMark[] {
  const marks: AxisMark[] = [];
  if (pixelsPerDay * 7 < 44) return marks;
  const step = pixelsPerDay >= 22 ? 1 : 7;
  for (let day = step === 1 ? first : weekStart(first + 6); day <= last; day += step) {
    marks.push({ day, kind: weekStart(day) === day ? 'week' : 'day' });
  }
  return marks;
}
