// Amounts as fields to type in: what such a field shows, and how what is typed there is read, in the person's units.

import { digitsTyped, readAmount, readNumber, readTemperature, type UnitSizes } from '../domain/typed';
import { degrees } from '../domain/site';
import {
  inFeet,
  kGramsPerOunce,
  kGramsPerPound,
  kMetresPerFoot,
  kMillimetresPerInch,
  spacing,
  weight,
  type Amount,
} from '../domain/units';
import type { Want } from '../api/types';
import { decimalMark, lengthText, number } from './format';
import { preferences } from './preferences.svelte';

/** One amount as it is typed. */
export interface Field {
  /** What the field shows: a number, or words for what no number says. */
  written: string;
  /** Stands behind the field. */
  unit: string;
  /** Keys that a phone offers. */
  keys: 'decimal' | 'numeric' | 'text';
  /** The amount that was typed; nothing where it is none. */
  read: (typed: string) => number | undefined;
}

const kWeightSizes: UnitSizes = { g: 1, kg: 1000, oz: kGramsPerOunce, lb: kGramsPerPound };
const kLengthSizes: UnitSizes = {
  m: 1,
  cm: 0.01,
  mm: 0.001,
  ft: kMetresPerFoot,
  "'": kMetresPerFoot,
  in: kMillimetresPerInch / 1000,
  '"': kMillimetresPerInch / 1000,
};
const kSpacingSizes: UnitSizes = Object.fromEntries(
  Object.entries(kLengthSizes).map(([unit, metres]) => [unit, metres * 1000]),
);

const inUnit = ({ value, unit, digits }: Amount, sizes: UnitSizes): Field => ({
  written: number(value, digitsTyped(value, digits)),
  unit,
  keys: 'decimal',
  read: (typed) => readAmount(typed, sizes, unit, decimalMark()),
});

const wholeNumber = (typed: string) => {
  const value = readNumber(typed, decimalMark());
  return value === undefined ? undefined : Math.round(value);
};

export const weightField = (grams: number): Field => inUnit(weight(grams, preferences.units), kWeightSizes);
export const spacingField = (millimetres: number): Field =>
  inUnit(spacing(millimetres, preferences.units), kSpacingSizes);

/** A length along a bed: metres, or feet and inches, which no phone's keys for numbers can type. */
export function lengthField(metres: number): Field {
  if (preferences.units === 'metric') return inUnit({ value: metres, unit: 'm', digits: 2 }, kLengthSizes);
  const unit = inFeet(metres) ? 'ft' : 'in';
  const read = (typed: string) => readAmount(typed, kLengthSizes, unit, decimalMark());
  return { written: lengthText(metres), unit: '', keys: 'text', read };
}

/** Pieces of something, each whole. */
export const countField = (count: number, unit = ''): Field => ({
  written: number(count),
  unit,
  keys: 'numeric',
  read: wholeNumber,
});

export const yearField = (year: number): Field => ({ ...countField(year), written: String(year) });

export const percentField = (percent: number): Field => ({
  written: number(percent, digitsTyped(percent, 0)),
  unit: '%',
  keys: 'decimal',
  read: (typed) => readAmount(typed, { '%': 1 }, '%', decimalMark()),
});

export function temperatureField(celsius: number): Field {
  const us = preferences.units === 'us';
  const shown = degrees(celsius, preferences.units);
  const read = (typed: string) => readTemperature(typed, us ? 'f' : 'c', decimalMark());
  return {
    written: number(shown, us ? 0 : digitsTyped(shown, 0)),
    unit: us ? '°F' : '°C',
    keys: 'decimal',
    read,
  };
}

/** An amount in the unit of a wish. */
export function wishField(amount: number, unit: Want['unit']): Field {
  if (unit === 'grams') return weightField(amount);
  const named = preferences.texts.table.amounts[unit](number(amount, digitsTyped(amount, 0)));
  return {
    written: number(amount, digitsTyped(amount, 0)),
    unit: named.replace(/^[\d.,\s\u00a0\u202f]+/, ''),
    keys: 'decimal',
    read: (typed) => readNumber(typed, decimalMark()),
  };
}

/** A field that tells its present amount in words. */
export const inWords = (field: Field, words: string): Field => ({ ...field, written: words, unit: '' });
