// A quantity through the year, January to December: scales, band paths and marks, in CSS pixels.

import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import { monthStart, type Day } from '../domain/days';
import type { Frame } from './fan';

/** A band between two curves, one value a day. */
export interface Band {
  low: number[];
  high: number[];
}

export interface YearScales {
  xOf: (day: Day) => number;
  dayAt: (x: number) => Day;
  yOf: (value: number) => number;
  ticks: number[];
  /** Middle of each month and the pixels it takes. */
  months: { first: Day; middle: number; left: number }[];
}

/** Scales for `days` from `first`; `values` (already in the shown unit) must all fit. */
export function yearScales(first: Day, days: number, values: number[], frame: Frame, ticks = 5): YearScales {
  const x = scaleLinear([first, first + days], [frame.left, frame.width - frame.right]);
  let low = Infinity;
  let high = -Infinity;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (!(high > low)) [low, high] = Number.isFinite(low) ? [low - 1, low + 1] : [0, 1];
  const y = scaleLinear([low, high], [frame.height - frame.bottom, frame.top]).nice(ticks);
  const months = Array.from({ length: 12 }, (_, i) => {
    const start = monthStart(first, i);
    const end = monthStart(first, i + 1);
    return { first: start, left: x(start), middle: (x(start) + x(end)) / 2 };
  });
  return {
    xOf: (day) => x(day + 0.5),
    dayAt: (px) => Math.max(first, Math.min(first + days - 1, Math.floor(x.invert(px)))),
    yOf: (value) => y(value),
    ticks: y.ticks(ticks),
    months,
  };
}

export const bandPath = (band: Band, first: Day, scales: YearScales): string =>
  area<number>(
    (_, i) => scales.xOf(first + i),
    (_, i) => scales.yOf(band.low[i] ?? 0),
    (_, i) => scales.yOf(band.high[i] ?? 0),
  )(band.low) ?? '';

export const linePath = (values: number[], first: Day, scales: YearScales): string =>
  line<number>(
    (_, i) => scales.xOf(first + i),
    (value) => scales.yOf(value),
  )(values) ?? '';
