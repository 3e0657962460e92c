// What the program says as keys and values, in the language and units of this person.

import type { Phrase, Task } from '../api/types';
import { needYear, parseDay, type Day } from '../domain/days';
import { withoutDoubles } from '../domain/sentences';
import {
  cropName,
  dayRange,
  fullDay,
  lengthText,
  number,
  percent,
  shortDay,
  spacingText,
  stretchTexts,
  temperatureDifferenceText,
  temperaturesText,
  temperatureText,
  weightText,
} from './format';
import { gardenState } from './garden.svelte';
import { packetSaid, wishName } from './names';
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
  ['_k', temperatureDifferenceText],
  ['_share', percent],
];

const isDay = (value: number | string): value is string => typeof value === 'string' && kDay.test(value);

/** What is said of an entry may be that its year is a slip. */
function spellerOf({ key, values }: Phrase): (day: Day) => string {
  const days = Object.values(values).filter(isDay).map(parseDay);
  return key.startsWith('log-') && needYear(days, gardenState.today) ? fullDay : shortDay;
}

function valueText(name: string, value: number | string, spell: (day: Day) => string): string {
  if (isDay(value)) return spell(parseDay(value));
  if (typeof value === 'string') return value;
  const unit = kUnits.find(([end]) => name.endsWith(end));
  return unit ? unit[1](value) : number(value, 1);
}

function phraseText(phrase: Phrase, ofCrop: string): string | undefined {
  const { key, values } = phrase;
  const spell = spellerOf(phrase);
  const say = preferences.texts.said[key];
  const texts = Object.fromEntries(
    Object.entries(values).map(([name, value]) => [name, valueText(name, value, spell)]),
  );
  texts.of_crop = ofCrop;
  if (typeof values.from === 'string' && typeof values.to === 'string')
    texts.days =
      values.from === values.to
        ? shortDay(parseDay(values.from))
        : dayRange(parseDay(values.from), parseDay(values.to));
  if (typeof values.from_m === 'number' && typeof values.to_m === 'number')
    [texts.from_m, texts.to_m] = stretchTexts(values.from_m, values.to_m);
  if (typeof values.crop === 'string')
    texts.crop = cropName(values.crop, String(values.crop_name ?? values.crop));
  if (typeof values.packet === 'string') {
    // A packet is told by its variety and year, as on the page Seed, not by its id.
    const packet = packetSaid(values.packet, String(values.crop_name ?? values.crop));
    if (packet) [texts.crop, texts.packet] = [packet.crop, packet.year];
  }
  // Two wishes of one name come with their ids in brackets, which the page keeps.
  if (typeof values.want_id === 'string' && !texts.want?.endsWith(`(${values.want_id})`))
    texts.want = wishName(values.want_id);
  return say && withoutDoubles(say(texts), preferences.texts.aboutUnder);
}

export interface Words {
  text: string;
  /** Set where only the program's own English words are there. */
  lang: 'en' | undefined;
}

/**
 * Phrases in this person's words; the program's own English where there are none or one is not known here. `ofCrop`: the
 * crop they are about, where one is.
 */
export function words(said: Phrase[] | undefined, english: string, ofCrop = ''): Words {
  const phrases = said?.map((phrase) => phraseText(phrase, ofCrop)) ?? [];
  const known = phrases.length > 0 && phrases.every((phrase) => phrase !== undefined);
  return known ? { text: phrases.join('; '), lang: undefined } : { text: english, lang: 'en' };
}

/** With a capital letter first and a full stop last, unless it asks or calls. */
export const sentence = (text: string) =>
  text.charAt(0).toLocaleUpperCase(preferences.locale) + text.slice(1) + (/[.!?]$/.test(text) ? '' : '.');

/** How to handle what a crop gives: the library's own English for a crop that the catalogue does not hold. */
export function handlingWords(crop: string, english: string): Words {
  const known = preferences.texts.handling[crop];
  if (known === undefined) return { text: english, lang: 'en' };
  const text = known.replace(/\{(\d+)(?:\|(\d+))?\}/g, (_, low: string, high?: string) =>
    high === undefined ? temperatureText(Number(low)) : temperaturesText(Number(low), Number(high)),
  );
  return { text, lang: undefined };
}

export function taskWords(task: Task, part: 'place' | 'amount' | 'reason' | 'caution'): Words {
  const said = words(task.said?.[part], task[part], task.crop);
  const known = said.lang && part === 'caution' ? preferences.texts.cautions[said.text] : undefined;
  return known === undefined ? said : { text: known, lang: undefined };
}
