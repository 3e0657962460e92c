// What went wrong, in the language of this person.

import type { ProblemAnswer } from '../api/types';
import type { Trouble } from '../domain/outbox';
import { preferences } from './preferences.svelte';

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

const stopped = (text: string) => (/[.!?]$/.test(text) ? text : `${text}.`);

/** The last part of "beds[2].length_m" is what a person filled in. */
const fieldName = (field: string) => preferences.texts.problems.fields[field.split('.').at(-1) ?? ''];

/** In English the program's own words, which are closer; elsewhere the sentence of the code, and those words beside it. */
export function problemWords({ code, what, remedy, field }: Trouble): ProblemWords {
  const { codes, about } = preferences.texts.problems;
  const own = [what, remedy].filter(Boolean).map(stopped).join(' ');
  const general = codes[code] ?? codes.internal ?? '';
  if (preferences.language === kOwnLanguage) return { text: own || general, detail: '' };
  const name = fieldName(field);
  return {
    text: name ? about(name, general) : general,
    detail: kNothingToAdd.includes(code) ? '' : own,
  };
}
