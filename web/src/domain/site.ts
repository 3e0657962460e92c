// The year at the garden's place: days of the year as days of the axis, and measures of temperature and sun.

import type { RiskDay, RiskDays, WarmSpan } from '../api/types';
import { monthStart, parseDay, utcDate, type Day } from './days';
import type { UnitSystem } from './units';

/**
 * What the name says that the program gives a position (src/climate/places.cpp): "near Cape Town", or from 100 km on
 * "1.35, 103.82 (by Hyderabad, 3317 km away)". Nothing for a name of the grower's own.
 */
export function nameOfSpot(
  name: string,
): { station: string; at: string; distanceKm: number | null } | undefined {
  const near = /^near (.+)$/.exec(name);
  if (near?.[1]) return { station: near[1], at: '', distanceKm: null };
  const far = /^(-?[\d.]+, -?[\d.]+) \(by (.+), (\d+) km away\)$/.exec(name);
  if (!far?.[1] || !far[2]) return undefined;
  return { station: far[2], at: far[1], distanceKm: Number(far[3]) };
}

/** Exact: 1 kWh is 3.6 MJ. */
export const kMegajoulesPerKilowattHour = 3.6;
/** International mile, exact. */
export const kKilometresPerMile = 1.609344;

export const degrees = (celsius: number, system: UnitSystem) =>
  system === 'us' ? celsius * 1.8 + 32 : celsius;

export const kilometresOrMiles = (km: number, system: UnitSystem) =>
  system === 'us' ? km / kKilometresPerMile : km;

/** The day of the axis' year at "MM-DD"; 29 February is the 28th in a common year; NaN for words. */
export function dayOfAxis(text: RiskDay, axisFirst: Day): Day {
  if (!/^\d{2}-\d{2}$/.test(text)) return NaN;
  const year = utcDate(axisFirst).getUTCFullYear();
  const day = parseDay(`${year}-${text}`);
  return Number.isNaN(day) && text === '02-29' ? parseDay(`${year}-02-28`) : day;
}

export interface Stretch {
  from: Day;
  to: Day;
}

/** A stretch of the year on the axis: two where it wraps the new year. Both ends are included. */
export function stretches(from: Day, to: Day, axisFirst: Day, days: number): Stretch[] {
  if (!Number.isFinite(from) || !Number.isFinite(to)) return [];
  if (from <= to) return [{ from, to }];
  return [
    { from, to: axisFirst + days - 1 },
    { from: axisFirst, to },
  ];
}

/** Where a date lies in 8 years of 10; from its middle on where it does not come in every year. */
export function rangeOf(dates: RiskDays, axisFirst: Day, days: number): { range: Stretch[]; middle: Day } {
  const known = [dates.p10, dates.p50, dates.p90].map((text) => dayOfAxis(text, axisFirst));
  const dated = known.filter(Number.isFinite);
  const first = dated[0] ?? NaN;
  const last = dated[dated.length - 1] ?? NaN;
  return { range: stretches(first, last, axisFirst, days), middle: known[1] ?? NaN };
}

export function warmStretches(span: WarmSpan, axisFirst: Day, days: number): Stretch[] {
  if (span === 'never') return [];
  if (span === 'always') return [{ from: axisFirst, to: axisFirst + days - 1 }];
  return stretches(dayOfAxis(span.from, axisFirst), dayOfAxis(span.until, axisFirst), axisFirst, days);
}

/** The 15th of each month of the axis. */
export function middlesOfMonths(axisFirst: Day): Day[] {
  return Array.from({ length: 12 }, (_, month) => monthStart(axisFirst, month) + 14);
}
