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
  kind: 'month' | 'week' | 'day';
}

/** Months always; weeks once a week is wide enough to say something; days once a day is. */
export function axisMarks(axis: TimeAxis): AxisMark[] {
  const marks: AxisMark[] = [];
  for (let day = monthStart(axis.first); day <= axis.last; day = monthStart(day, 1)) {
    if (day >= axis.first) marks.push({ day, kind: 'month' });
  }
  if (axis.pixelsPerDay * 7 >= 44) {
    for (let day = weekStart(axis.first + 6); day <= axis.last; day += 7) marks.push({ day, kind: 'week' });
  }
  if (axis.pixelsPerDay >= 22) {
    for (let day = axis.first; day <= axis.last; day += 1) {
      if (weekStart(day) !== day) marks.push({ day, kind: 'day' });
    }
  }
  return marks;
}
