// What the program says as keys and values, in the language and units of this person.

import type { Phrase, Task } from '../api/types';
import { parseDay } from '../domain/days';
import {
  dayRange,
  lengthText,
  number,
  percent,
  shortDay,
  spacingText,
  temperatureText,
  weightText,
} from './format';
import { preferences } from './preferences.svelte';

const kDay = /^\d{4}-\d{2}-\d{2}$/;

/** A depth of sowing: millimetres in metric gardens however deep, so that depths compare at a glance. */
const depthText = (millimetres: number) =>
  preferences.units === 'us' ? spacingText(millimetres) : `${number(millimetres)} mm`;

/** The end of a value's name is its unit. */
const kUnits: [string, (value: number) => string][] = [
  ['depth_mm', depthText],
  ['_mm', spacingText],
  ['_m', lengthText],
  ['_g', weightText],
  ['_c', temperatureText],
  ['_share', percent],
];

function valueText(name: string, value: number | string): string {
  if (typeof value === 'string') return kDay.test(value) ? shortDay(parseDay(value)) : value;
  const unit = kUnits.find(([end]) => name.endsWith(end));
  return unit ? unit[1](value) : number(value, 1);
}

function phraseText({ key, values }: Phrase): string | undefined {
  const say = preferences.texts.said[key];
  const texts = Object.fromEntries(
    Object.entries(values).map(([name, value]) => [name, valueText(name, value)]),
  );
  if (typeof values.from === 'string' && typeof values.to === 'string')
    texts.days =
      values.from === values.to
        ? shortDay(parseDay(values.from))
        : dayRange(parseDay(values.from), parseDay(values.to));
  return say?.(texts);
}

export interface Words {
  text: string;
  /** Set where only the program's own English words are there. */
  lang: 'en' | undefined;
}

/** Phrases in this person's words; the program's own English where there are none or one is not known here. */
export function words(said: Phrase[] | undefined, english: string): Words {
  const phrases = said?.map(phraseText) ?? [];
  const known = phrases.length > 0 && phrases.every((phrase) => phrase !== undefined);
  return known ? { text: phrases.join('; '), lang: undefined } : { text: english, lang: 'en' };
}

export const taskWords = (task: Task, part: 'place' | 'amount' | 'reason' | 'caution'): Words =>
  words(task.said?.[part], task[part]);
