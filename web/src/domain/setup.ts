// Setting up a garden: beds drawn on squared paper, and the parts as the server takes them.

import type { BuiltInPlace, SetupAnswer, SetupBed } from '../api/types';
import { sameValue } from './share';

/** Parts that are told under other names than their own. */
const kFieldsOf: Record<string, (keyof SetupAnswer)[]> = {
  about: ['name', 'units', 'cool_store'],
  place: ['site', 'normals', 'has_normals', 'weather_days'],
};

/** Whether a part of the set-up is the same in two states, whatever else differs. */
export const samePart = (part: string, a: SetupAnswer, b: SetupAnswer): boolean =>
  (kFieldsOf[part] ?? [part as keyof SetupAnswer]).every((field) => sameValue(a[field], b[field]));

/** A narrower or shorter drawing is a slip of the hand. */
const kLeastSideM = 0.3;

export interface Corner {
  x: number;
  y: number;
}

/**
 * The bed between two corners on the paper, metres, its sides in steps of `stepM`; its longer side is its length. Nothing
 * when it is too small.
 */
export function drawnBed(
  from: Corner,
  to: Corner,
  stepM: number,
): { length_m: number; width_m: number } | null {
  const side = (a: number, b: number) => Math.round(Math.abs(a - b) / stepM) * stepM;
  const sides = [side(from.x, to.x), side(from.y, to.y)].sort((a, b) => b - a);
  const [length, width] = sides as [number, number];
  if (width < kLeastSideM) return null;
  return { length_m: Number(length.toFixed(4)), width_m: Number(width.toFixed(4)) };
}

/** Where each bed is drawn on the paper, one below another, metres from its top left corner. */
export function bedsOnPaper(beds: SetupBed[]): { bed: SetupBed; y: number }[] {
  const kPathM = 0.5;
  let y = 0;
  return beds.map((bed) => {
    const at = { bed, y };
    y += bed.width_m + kPathM;
    return at;
  });
}

/** The station list writes no umlauts: "Nuernberg" for "Nürnberg". */
const kSpelledOut: Record<string, string> = { ä: 'ae', ö: 'oe', ü: 'ue', ß: 'ss', æ: 'ae', ø: 'oe', å: 'aa' };

/** Small letters without marks: "Nürnberg" as "nuernberg", "Málaga" as "malaga". */
const plainLetters = (text: string): string =>
  text
    .normalize('NFC')
    .toLowerCase()
    .replace(/[äöüßæøå]/g, (letter) => kSpelledOut[letter] ?? letter)
    .normalize('NFD')
    .replace(/\p{M}/gu, '');

/** The same as one letter each: people also type "Nurnberg". */
const withoutSpelledOut = (plain: string): string => plain.replace(/([aou])e/g, '$1');

/** The places whose name or country holds all words typed, those that begin with the first word first. */
export function findPlaces(places: BuiltInPlace[], typed: string, most: number): BuiltInPlace[] {
  const words = plainLetters(typed).split(/\s+/).filter(Boolean);
  if (words.length === 0) return [];
  const found = places.filter((place) => {
    const text = plainLetters(`${place.name} ${place.country}`);
    return words.every((word) => text.includes(word) || withoutSpelledOut(text).includes(word));
  });
  const begins = (place: BuiltInPlace) => (plainLetters(place.name).startsWith(words[0] ?? '') ? 0 : 1);
  return found.sort((a, b) => begins(a) - begins(b) || a.name.localeCompare(b.name)).slice(0, most);
}
