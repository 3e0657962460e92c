// The program's words on paper are made from the language files of the page: `npm run paper-texts` writes them anew.

import { describe, expect, it } from 'vitest';
import { catalogues } from '../src/texts/catalogues';
import { paper as english, type PaperTexts } from '../src/texts/en';

const papers = import.meta.glob<PaperTexts>('../src/texts/[a-z][a-z].ts', { eager: true, import: 'paper' });

const printed = import.meta.glob('../../src/desk/print/texts/*.toml', { query: '?raw' });

const kBareKey = /^[A-Za-z0-9_-]+$/;
/** A TOML basic string escapes what a JSON string does (TOML 1.0, "String"). */
const quoted = (text: string) => JSON.stringify(text);
const keyOf = (key: string) => (kBareKey.test(key) ? key : quoted(key));

function tomlOf(language: string, paper: PaperTexts): string {
  const { crops, cautions } = catalogues[language]!;
  const sections: [string, Record<string, string>][] = [
    ...Object.entries(paper),
    // The names and cautions that the page says too; English has the crop library's own.
    ...(language === 'en'
      ? []
      : ([
          ['crops', crops],
          ['cautions', cautions],
        ] as [string, Record<string, string>][])),
  ];
  const lines = sections.map(
    ([name, entries]) =>
      `\n[${name}]\n${Object.entries(entries)
        .map(([key, text]) => `${keyOf(key)} = ${quoted(text)}\n`)
        .join('')}`,
  );
  return `# Made from web/src/texts/${language}.ts by \`npm run paper-texts\` in web/: change it there.\n${lines.join('')}`;
}

describe('words on paper', () => {
  for (const [file, paper] of Object.entries(papers)) {
    const language = file.slice(-5, -3);
    it(`of ${language} are those of its language file`, async () => {
      await expect(tomlOf(language, paper)).toMatchFileSnapshot(
        `../../src/desk/print/texts/${language}.toml`,
      );
    });
    it(`of ${language} name the same values as the English ones`, () => {
      const values = (text: string) => [...text.matchAll(/\{(\w+)\}/g)].map((match) => match[1]).sort();
      for (const [section, entries] of Object.entries(english) as [
        keyof PaperTexts,
        Record<string, string>,
      ][])
        for (const [key, text] of Object.entries(entries))
          expect(values((paper[section] as Record<string, string>)[key]!), `${section}.${key}`).toEqual(
            values(text),
          );
    });
  }
  it('are there in every language of the page, and in no other', () => {
    const files = Object.keys(printed).map((file) => file.slice(file.lastIndexOf('/') + 1));
    expect(files.sort()).toEqual(
      Object.keys(catalogues)
        .map((language) => `${language}.toml`)
        .sort(),
    );
  });
});
