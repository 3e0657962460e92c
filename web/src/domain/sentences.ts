// Sentences of the program in another language: its own English sentence, with names in braces for what varies, is the key
// under which a catalogue holds the translation. So a translation stays a file, and what no file knows is still told.
//
//   { 'there is no lot "{id}" in store': 'im Vorrat gibt es keinen Posten {id}' }

/** The translations by the program's sentences. A name in braces, without the digits at its end, says what stands there:
 *  n a number, day a date, deed what was done, rest a sentence of its own; anything else is a text. */
export type Sentences = Record<string, string>;

/** Says what stands at a name of a sentence. */
export type SayPart = (kind: string, text: string) => string;

interface Pattern {
  shape: RegExp;
  names: string[];
  translation: string;
}

const kShapes: Record<string, string> = {
  n: '(-?[\\d.,]+)',
  day: '(\\d{4}-\\d{2}-\\d{2})',
};
const kName = /\{(\w+)\}/g;

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
const kindOf = (name: string) => name.replace(/\d+$/, '');

function patternOf([sentence, translation]: [string, string]): Pattern {
  const names = [...sentence.matchAll(kName)].map((match) => match[1] ?? '');
  const between = sentence.split(/\{\w+\}/).map(escaped);
  const shape = between.reduce(
    (text, part, i) => text + (i > 0 ? (kShapes[kindOf(names[i - 1] ?? '')] ?? '(.+?)') : '') + part,
    '',
  );
  return { shape: new RegExp(`^${shape}$`), names, translation };
}

const kPatterns = new WeakMap<Sentences, Pattern[]>();

function patternsOf(sentences: Sentences): Pattern[] {
  let patterns = kPatterns.get(sentences);
  if (!patterns) {
    // What leaves less open is closer.
    patterns = Object.entries(sentences)
      .map(patternOf)
      .toSorted((a, b) => a.names.length - b.names.length);
    kPatterns.set(sentences, patterns);
  }
  return patterns;
}

/** A sentence as the catalogue says it; undefined where it does not know it. A full stop at its end does not count. */
export function translated(text: string, sentences: Sentences, say: SayPart): string | undefined {
  const sentence = text.replace(/\.$/, '');
  for (const { shape, names, translation } of patternsOf(sentences)) {
    const match = shape.exec(sentence);
    if (!match) continue;
    const parts = new Map(names.map((name, i) => [name, match[i + 1] ?? '']));
    return translation.replace(kName, (_, name: string) => {
      const part = parts.get(name) ?? '';
      if (kindOf(name) === 'rest') return translated(part, sentences, say) ?? part;
      return say(kindOf(name), part);
    });
  }
  return undefined;
}

/**
 * Words as they meet in a sentence: an amount too small for its figure reads "under 1 g" and is not about it, and the full
 * stop of a shortened month ends the sentence too.
 */
export const withoutDoubles = (text: string, aboutUnder: RegExp): string =>
  text
    .replace(aboutUnder, (doubled: string, under: string) =>
      /^\p{Lu}/u.test(doubled) ? under.charAt(0).toUpperCase() + under.slice(1) : under,
    )
    .replace(/\.\.(?!\.)/g, '.');
