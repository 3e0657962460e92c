// What went wrong, in the language of this person.

import type { ProblemAnswer } from '../api/types';
import { parseDay } from '../domain/days';
import type { Trouble } from '../domain/outbox';
import { translated } from '../domain/sentences';
import { fullDay, number } from './format';
import { bedName, namedCrop } from './names';
import { preferences } from './preferences.svelte';
import { sentence } from './said';

/** The language in which the program words its problems. */
const kOwnLanguage = 'en';
/** Their sentence says all there is to say. */
const kNothingToAdd = ['offline', 'cancelled'];

export interface ProblemWords {
  text: string;
  /** The program's own words, in English, where the text alone does not say enough; else empty. */
  detail: string;
}

/** The fields of a problem alone, to be kept on the device. */
export const keptTrouble = ({ code, what, remedy, field }: Trouble): Trouble => ({
  code,
  what,
  remedy,
  field,
});

/** A problem as an answer tells it. */
export const troubleOf = (error: ProblemAnswer['error'] | undefined): Trouble => ({
  code: error?.code ?? 'internal',
  what: error?.what ?? '',
  remedy: error?.remedy ?? '',
  field: error?.where?.field ?? '',
});

/** The last part of "beds[2].length_m" is what a person filled in. */
const fieldName = (field: string) => preferences.texts.problems.fields[field.split('.').at(-1) ?? ''];

/** A sentence that speaks of its field without naming it: "is 0, must be above 0". */
const kAboutField = /^(is|must|needs|names|cannot) /;

const dayText = (text: string) => fullDay(parseDay(text));
/** "s1" (beet), as the log names a stand. */
const standText = (text: string) =>
  text.replace(/^"(.+)" \((.+)\)$/, (_, id: string, crop: string) => `${id} (${namedCrop(crop)})`);

const oneOf = (names: string[]) =>
  new Intl.ListFormat(preferences.locale, { type: 'disjunction' }).format(names);

function sayPart(kind: string, text: string): string {
  if (kind === 'day') return dayText(text);
  if (kind === 'n') return number(Number(text.replaceAll(',', '')), 2);
  // With its unit, "3.60 m" or "3 ft 4 in": the figures as they are written here.
  if (kind === 'length') return text.replaceAll(/[\d.]+/g, (figure) => number(Number(figure), 2));
  if (kind === 'deed') return preferences.texts.today.events[text.replace(' ', '-')] ?? text;
  if (kind === 'crop') return namedCrop(text);
  if (kind === 'bed') return bedName(text);
  if (kind === 'names') return oneOf(text.split(/, | or /).map(namedCrop));
  return kind === 'stand' ? standText(text) : text;
}

const said = (text: string) => translated(text, preferences.texts.problems.sentences, sayPart);

/**
 * In English the program's own words. Elsewhere the same from the catalogue; for a sentence that it does not hold, the
 * sentence of the code, and the program's English beside it.
 */
export function problemWords({ code, what, remedy, field }: Trouble): ProblemWords {
  const { codes, about } = preferences.texts.problems;
  const name = fieldName(field);
  const withField = (text: string) => (name && kAboutField.test(what) ? about(name, text) : text);
  const general = codes[code] ?? codes.internal ?? '';
  const together = (...texts: string[]) => texts.filter(Boolean).map(sentence).join(' ');
  const own = together(withField(what), remedy);
  if (preferences.language === kOwnLanguage) return { text: own || general, detail: '' };
  const saidWhat = said(what);
  const saidRemedy = remedy ? said(remedy) : '';
  if (saidWhat !== undefined && saidRemedy !== undefined)
    return { text: together(withField(saidWhat), saidRemedy), detail: '' };
  return {
    text: name ? about(name, general) : general,
    detail: kNothingToAdd.includes(code) ? '' : together(what, remedy),
  };
}
