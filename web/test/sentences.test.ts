import { describe, expect, it } from 'vitest';
import { translated, type Sentences, withoutDoubles } from '../src/domain/sentences';
import { de } from '../src/texts/de';

const kSources = import.meta.glob<string>('../../src/**/*.{cpp,hpp}', {
  query: '?raw',
  import: 'default',
  eager: true,
});

/** Sources with every text in one piece. */
const literals = Object.values(kSources)
  .join('\n')
  .replace(/\\"/g, '\u201d')
  .replace(/"\s*\n\s*"/g, '')
  .replace(/\u201d/g, '"');

/** Whether words stand in the sources, whole or as the end of one text and the beginning of another. */
function isWritten(words: string): boolean {
  if (literals.includes(words)) return true;
  const spaces = [...words.matchAll(/ /g)].map((match) => match.index);
  return spaces.some(
    (at) => literals.includes(`${words.slice(0, at)} `) && literals.includes(words.slice(at + 1)),
  );
}

describe('sentences of the program', () => {
  const say = (kind: string, text: string) => `<${kind} ${text}>`;
  const known: Sentences = {
    'there is no lot "{id}" in store': 'kein Posten {id}',
    'stand {stand} was {deed} on {day} and cannot be {deed2} before, on {day2}':
      '{stand}: {deed2} am {day2}, {deed} am {day}',
    'would bring back the entry {id}, but {rest}': 'zurück käme {id}, aber {rest}',
    'is {n}, must be {n2} to {n3}': '{n} statt {n2} bis {n3}',
  };

  it('are said with what varies in its own place', () => {
    expect(
      translated(
        'stand "s1" (beet) was sown on 2027-04-02 and cannot be set out before, on 2027-04-01',
        known,
        say,
      ),
    ).toBe('<stand "s1" (beet)>: <deed set out> am <day 2027-04-01>, <deed sown> am <day 2027-04-02>');
    expect(translated('is 12.5, must be 0 to 3.', known, say)).toBe('<n 12.5> statt <n 0> bis <n 3>');
  });
  it('may hold a sentence of their own', () => {
    expect(translated('would bring back the entry e7, but there is no lot "l1" in store', known, say)).toBe(
      'zurück käme <id e7>, aber kein Posten <id l1>',
    );
  });
  it('are not guessed', () => {
    expect(translated('there is no lot', known, say)).toBeUndefined();
    expect(translated('is twelve, must be 0 to 3', known, say)).toBeUndefined();
  });
  it('keep what varies in German', () => {
    const names = (text: string) => [...text.matchAll(/\{\w+\}/g)].map(([name]) => name).sort();
    for (const [sentence, translation] of Object.entries(de.problems.sentences))
      expect(names(translation), sentence).toEqual(names(sentence));
  });
  // A sentence that is worded anew in the program would no longer be found.
  it('stand in the program as the German file knows them', () => {
    const lost = Object.keys(de.problems.sentences).filter(
      (sentence) => !sentence.split(/\{\w+\}/).every(isWritten),
    );
    expect(lost).toEqual([]);
  });
});

describe('words that meet', () => {
  it('end a sentence once after a shortened month', () => {
    expect(withoutDoubles('Gelagert hält es bis etwa 13. Okt..', /\betwa (unter )/gi)).toBe(
      'Gelagert hält es bis etwa 13. Okt.',
    );
    expect(withoutDoubles('ab 3. Juni …', /\betwa (unter )/gi)).toBe('ab 3. Juni …');
    expect(withoutDoubles('Etwa unter 1 g', /\betwa (unter )/gi)).toBe('Unter 1 g');
  });
});
