// Numbers, dates and amounts as this person reads them. The only place that formats.

import type { Stand } from '../api/types';
import { rangeSpeller } from '../domain/dayRange';
import { isUnclear, utcDate, type Day } from '../domain/days';
import { degrees, kilometresOrMiles, kMegajoulesPerKilowattHour, nameOfSpot } from '../domain/site';
import {
  height,
  inFeet,
  isTrace,
  length,
  spacing,
  volume,
  weight,
  weightMarks,
  type Amount,
} from '../domain/units';
import { preferences } from './preferences.svelte';

const kCache = new Map<string, Intl.NumberFormat>();

/** The ways of writing a day, by name: a season spells thousands of days, so each is looked up and never made twice. */
const kDateStyles = {
  dayMonth: { day: 'numeric', month: 'short' },
  full: { day: 'numeric', month: 'short', year: 'numeric' },
  long: { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' },
  month: { month: 'short' },
  monthLetter: { month: 'narrow' },
  year: { year: 'numeric' },
} as const satisfies Record<string, Intl.DateTimeFormatOptions>;
type DateStyle = keyof typeof kDateStyles;

interface Spellers {
  locale: string;
  dates: Partial<Record<DateStyle, Intl.DateTimeFormat>>;
  ranges?: (from: Day, to: Day) => string;
}
let spellers: Spellers = { locale: '', dates: {} };

function spellersHere(): Spellers {
  if (spellers.locale !== preferences.locale) spellers = { locale: preferences.locale, dates: {} };
  return spellers;
}

function dates(style: DateStyle): Intl.DateTimeFormat {
  const { locale, dates: known } = spellersHere();
  return (known[style] ??= new Intl.DateTimeFormat(locale, { timeZone: 'UTC', ...kDateStyles[style] }));
}

const ranges = (from: Day, to: Day) => (spellersHere().ranges ??= rangeSpeller(dates('dayMonth')))(from, to);

function numbers(digits: number, style: 'decimal' | 'percent' = 'decimal'): Intl.NumberFormat {
  const key = `n${preferences.locale}${digits}${style}`;
  let format = kCache.get(key);
  if (!format) {
    format = new Intl.NumberFormat(preferences.locale, { style, maximumFractionDigits: digits });
    kCache.set(key, format);
  }
  return format;
}

/** Width of a month and its year in the bold type of the axis, with room before the next, in CSS pixels. */
const kMonthAndYearPx = 88;

const kUnknown = '–';

/** "12 Jun", whichever year it is of: days of a typical year. */
export const yearlessDay = (day: Day) =>
  Number.isFinite(day) ? dates('dayMonth').format(utcDate(day)) : kUnknown;
/** "12 Jun", and with its year where that could be mistaken. */
export const shortDay = (day: Day) => (isUnclear(day, preferences.today) ? fullDay(day) : yearlessDay(day));
/** "Saturday, 12 June 2027" */
export const longDay = (day: Day) => dates('long').format(utcDate(day));
/** "12 Jun 2027" */
export const fullDay = (day: Day) => (Number.isFinite(day) ? dates('full').format(utcDate(day)) : kUnknown);
/** "Apr", "Jan 2028"; where there is room for one word only, January is told by its year: "2028". */
export function monthName(day: Day, roomPx = Infinity): string {
  const january = utcDate(day).getUTCMonth() === 0;
  if (!january) return dates('month').format(utcDate(day));
  const year = dates('year').format(utcDate(day));
  // A month beside its year is spelt as the others, which some languages shorten with a point only there.
  return roomPx < kMonthAndYearPx ? year : `${dates('month').format(utcDate(day))} ${year}`;
}
export const dayNumber = (day: Day) => String(utcDate(day).getUTCDate());
/** "12 Jun – 3 Jul", "3–9 Jul" */
export function dayRange(from: Day, to: Day): string {
  if (!Number.isFinite(from) || !Number.isFinite(to)) return kUnknown;
  const unclear = isUnclear(from, preferences.today) || isUnclear(to, preferences.today);
  return unclear ? dates('full').formatRange(utcDate(from), utcDate(to)) : ranges(from, to);
}

export const number = (value: number, digits = 0) => numbers(digits).format(value).replace('-', '−');
/** The mark between whole and tenths, as this person writes it. */
export const decimalMark = () =>
  numbers(1)
    .formatToParts(1.5)
    .find(({ type }) => type === 'decimal')?.value ?? '.';
/** "87 %": whole percents, and never "100 %" for what is not certain. */
export function percent(share: number): string {
  const shown = share > 0.99 && share < 1 ? 0.99 : share < 0.01 && share > 0 ? 0.01 : share;
  return numbers(0, 'percent').format(shown);
}

function say(amount: Amount): string {
  if (isTrace(amount)) return preferences.texts.under(say({ ...amount, value: 10 ** -amount.digits }));
  return `${number(amount.value, amount.digits)} ${amount.unit}`;
}
export const weightText = (grams: number) => say(weight(grams, preferences.units));
/** Weights along an axis, each told from the others. */
export const weightMarkTexts = (grams: number[]) => weightMarks(grams, preferences.units).map(say);
export const lengthText = (metres: number, feet = inFeet(metres)) =>
  length(metres, preferences.units, feet).map(say).join(' ');
/** The ends of a stretch of bed, both in the unit of its far end. */
export const stretchTexts = (fromM: number, toM: number): [string, string] => [
  lengthText(fromM, inFeet(toM)),
  lengthText(toM, inFeet(toM)),
];
export const heightText = (metres: number) => say(height(metres, preferences.units));
export const volumeText = (litres: number) => say(volume(litres, preferences.units));
export const spacingText = (millimetres: number) => say(spacing(millimetres, preferences.units));

/** How far apart the clumps of a stand are set, and how its rows lie. */
export function settingText(stand: Pick<Stand, 'spacing_mm' | 'arrangement' | 'row_spacing_mm'>): string {
  const spacingMm = spacingText(stand.spacing_mm);
  const rowMm = spacingText(stand.row_spacing_mm ?? stand.spacing_mm);
  return preferences.texts.stand.setting[stand.arrangement ?? 'square'](spacingMm, rowMm);
}

/** A site's name; that which the program gives a position is put in the language of the page. */
export function siteName(name: string): string {
  const near = nameOfSpot(name);
  if (!near) return name;
  const { site } = preferences.texts;
  return near.distanceKm === null
    ? site.near(near.station)
    : site.byFar(near.at, near.station, distanceText(near.distanceKm));
}

/** "47.45° N", "122.3° W" */
export function positionTexts(latitudeDeg: number, longitudeDeg: number): [string, string] {
  const c = preferences.texts.site.compass;
  return [
    `${number(Math.abs(latitudeDeg), 2)}° ${latitudeDeg < 0 ? c.south : c.north}`,
    `${number(Math.abs(longitudeDeg), 2)}° ${longitudeDeg < 0 ? c.west : c.east}`,
  ];
}

/** "12 °C", "54 °F"; figures of crops have a digit in Celsius. */
export function temperatureText(celsius: number, digits = 0): string {
  const us = preferences.units === 'us';
  const value = number(degrees(celsius, preferences.units), us ? 0 : digits).replace(/^−0$/, '0');
  return `${value} ${us ? '°F' : '°C'}`;
}
/** "1.8 °C", "3.2 °F": by how much one temperature is above another. */
export const temperatureDifferenceText = (kelvin: number) =>
  preferences.units === 'us' ? `${number(kelvin * 1.8, 1)} °F` : `${number(kelvin, 1)} °C`;
/** "27 to 30 °C" */
export const temperaturesText = (lowC: number, highC: number) =>
  preferences.texts.site.range(temperatureText(lowC).replace(/ °[CF]$/, ''), temperatureText(highC));
export const distanceText = (km: number) =>
  `${number(kilometresOrMiles(km, preferences.units))} ${preferences.units === 'us' ? 'mi' : 'km'}`;
/** Sun on a square metre in a day. */
export const sunText = (megajoules: number) => `${number(megajoules / kMegajoulesPerKilowattHour, 1)} kWh/m²`;
/** "15 h 20 min" */
export function hoursText(hours: number): string {
  const minutes = Math.round(hours * 60);
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}
/** "Apr", or "A" where there is little room. */
export const monthMark = (day: Day, narrow: boolean) =>
  dates(narrow ? 'monthLetter' : 'month').format(utcDate(day));

/** The name of a variety, which answers may give by its id. */
export const varietyName = (id: string, known: { id: string; name: string }[]) =>
  known.find((each) => each.id === id)?.name ?? id;

export const cropName = (crop: string, given: string) => preferences.texts.crops[crop] ?? given;
