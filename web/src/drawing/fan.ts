// The fan of a stand: the middle line and the band that holds eight years in ten.

import { max } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import { area, curveMonotoneX, line } from 'd3-shape';
import type { Fan } from '../api/types';
import { monthStart, parseDay, type Day } from '../domain/days';

export interface FanDrawing {
  band: string;
  middle: string;
  first: Day;
  last: Day;
  xOf: (day: Day) => number;
  dayAt: (x: number) => Day;
  yOf: (grams: number) => number;
  /** Round weights for the marks on the left. */
  weights: number[];
  /** Firsts of months with room for a name under them. */
  months: Day[];
}

export interface Frame {
  width: number;
  height: number;
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** A month's name is about so wide; names nearer than this would run into each other. */
const kMonthNamePx = 34;

/** The firsts of months between two days whose names, centred on them, neither overlap nor leave the frame. */
export function spacedMonths(first: Day, last: Day, xOf: (day: Day) => number, widthPx: number): Day[] {
  const months: Day[] = [];
  let freeFrom = kMonthNamePx / 2;
  for (let day = monthStart(first, 1); day <= last; day = monthStart(day, 1)) {
    if (xOf(day) < freeFrom || xOf(day) > widthPx - kMonthNamePx / 2) continue;
    months.push(day);
    freeFrom = xOf(day) + kMonthNamePx;
  }
  return months;
}

/**
 * Paths and scales of a fan inside a frame, in CSS pixels; what was observed, `seen` grams, has room in it too. `gramsPerMark`
 * is one unit of the shown measure.
 */
export function drawFan(fan: Fan, frame: Frame, gramsPerMark: number, seen: number[] = []): FanDrawing {
  const first = parseDay(fan.first);
  const last = first + Math.max(1, fan.p50.length - 1);
  const x = scaleLinear([first, last], [frame.left, frame.width - frame.right]);
  const top = Math.max(max(fan.p90) ?? 0, ...seen, gramsPerMark * 0.1);
  const y = scaleLinear([0, top / gramsPerMark], [frame.height - frame.bottom, frame.top]).nice(4);
  const yOf = (grams: number) => y(grams / gramsPerMark);
  const days = fan.p50.map((_, i) => i);
  const bandPath = area<number>(
    (i) => x(first + i),
    (i) => yOf(fan.p10[i] ?? 0),
    (i) => yOf(fan.p90[i] ?? 0),
  );
  const middlePath = line<number>(
    (i) => x(first + i),
    (i) => yOf(fan.p50[i] ?? 0),
  );
  const months = spacedMonths(first, last, (day) => x(day), frame.width);
  return {
    band: bandPath.curve(curveMonotoneX)(days) ?? '',
    middle: middlePath.curve(curveMonotoneX)(days) ?? '',
    first,
    last,
    xOf: (day) => x(day),
    dayAt: (px) => Math.max(first, Math.min(last, Math.round(x.invert(px)))),
    yOf,
    weights: y.ticks(4).map((tick) => tick * gramsPerMark),
    months,
  };
}
