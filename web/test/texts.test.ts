import { describe, expect, it } from 'vitest';
import { de, paper as paperDe } from '../src/texts/de';
import { en } from '../src/texts/en';
import judge from '../../docs/api/judge.schema.json';
import log from '../../docs/api/log.schema.json';
import nursery from '../../docs/api/nursery.schema.json';
import outlook from '../../docs/api/outlook.schema.json';
import packets from '../../docs/api/packets.schema.json';
import plan from '../../docs/api/plan.schema.json';
import printed from '../../src/desk/print/texts/de.toml?raw';
import problemSource from '../../src/base/problem.cpp?raw';
import today from '../../docs/api/today.schema.json';

const kCropFiles = import.meta.glob<string>('../../crops/*.toml', {
  query: '?raw',
  import: 'default',
  eager: true,
});

/** The phrases of all answers that come as phrases. */
const kPhrases = [today, outlook, nursery, judge, plan, packets, log].flatMap(
  (schema) => schema.$defs.phrase.oneOf as Phrase[],
);
interface Phrase {
  properties: { key: { const: string }; values: { required: string[] } };
}

/** All paths of a catalogue, with what kind of text stands there. */
function shape(value: unknown, path = ''): string[] {
  if (typeof value === 'object' && value !== null)
    return Object.entries(value).flatMap(([key, each]) => shape(each, `${path}.${key}`));
  return [`${path}: ${typeof value}`];
}

describe('the catalogues', () => {
  it('say the same things in every language (names of crops may be left to the library)', () => {
    const without = (paths: string[]) =>
      paths.filter((path) => !/^\.(crops|cautions|problems\.sentences)\./.test(path));
    expect(without(shape(de)).sort()).toEqual(without(shape(en)).sort());
  });
  it('leave no text empty', () => {
    for (const [name, catalogue] of Object.entries({ en, de })) {
      expect(JSON.stringify(catalogue).match(/"[^"]+":""/g), name).toBeNull();
    }
  });
  it('can say all that the answers say as phrases', () => {
    const keys = [...new Set(kPhrases.map((phrase) => phrase.properties.key.const))].sort();
    expect(Object.keys(en.said).sort()).toEqual(keys);
    expect(Object.keys(de.said).sort()).toEqual(keys);
  });
  it('know every caution of the crop library in German, in the words of the printed sheets', () => {
    const cautions = [
      ...Object.values(kCropFiles)
        .join('\n')
        .matchAll(/^caution = "(.+)"$/gm),
    ].map((found) => found[1]!);
    expect(cautions.length).toBeGreaterThan(20);
    for (const caution of cautions) {
      expect(Object.keys(de.cautions)).toContain(caution);
      expect(printed).toContain(`"${caution}" = "${de.cautions[caution]!}"`);
    }
  });
  it('name every kitchen group of the crops', () => {
    const groups = new Set(
      [
        ...Object.values(kCropFiles)
          .join('\n')
          .matchAll(/^groups = \[(.+)\]$/gm),
      ].flatMap((found) => [...found[1]!.matchAll(/"([^"]+)"/g)].map((each) => each[1]!)),
    );
    expect(groups.size).toBeGreaterThan(5);
    for (const catalogue of [en, de])
      expect(Object.keys(catalogue.groups).sort()).toEqual([...groups].sort());
    expect(en.anyOf('cooking-greens')).toBe('any cooking greens');
    expect(de.anyOf('cooking-greens')).toBe('irgendein Blattgemüse zum Kochen');
  });
  it('say what one does with pieces, and how long just this leaf is blanched', () => {
    expect(de.stand.sowOn('10. Mai', 'potato')).toBe('zu legen 10. Mai');
    expect(de.stand.sowOn('10. Mai', 'carrot')).toBe('zu säen 10. Mai');
    expect(en.stand.sowOn('10 May', 'garlic')).toBe('to plant 10 May');
    for (const catalogue of [en, de]) {
      const minutes = (crop: string) =>
        catalogue.said['take-and-freeze']!({ weight_g: '1 kg', of_crop: crop }).match(
          /\d(?= [Mm]inute)/,
        )?.[0];
      expect(minutes('kale')).toBe('2');
      expect(minutes('collards')).toBe('3');
    }
  });
  it('call one thing by one name on the page and on paper', () => {
    expect(de.said['heat-near-water']!({})).toBe(paperDe.caution.heat_mat);
    expect(de.paper.sheets['sowing-sheet'].name).toBe(paperDe.title['sowing-sheet']);
    expect(de.paper.sheets.labels.name).toBe(paperDe.title.labels);
    expect(de.packets.seeds('3', false)).toBe(paperDe.sowing.seeds.replace('{n}', '3'));
  });
  it('put every value of a phrase into its words', () => {
    for (const { properties } of kPhrases) {
      const required: string[] = properties.values.required;
      const place = { place: 'fridge' };
      const values = Object.fromEntries(required.map((name) => [name, `<${name}>`]));
      if (required.includes('from') && required.includes('to')) values.days = '<from><to>';
      for (const catalogue of [en, de]) {
        const text = catalogue.said[properties.key.const]!({
          ...values,
          ...('place' in values ? place : {}),
        });
        expect(text).not.toContain('undefined');
        // An id stands for a name that is said in its place.
        const silent = ['place', 'want_id', 'crop_name'];
        for (const name of required.filter((each) => !silent.includes(each)))
          expect(text).toContain(`<${name}>`);
      }
    }
  });
  it('tell one of anything as one', () => {
    const several = {
      en: /(^|[^\d.,])1 (seeds|plants|cells|clumps|places|pieces|days|weeks|years|servings)\b/,
      de: /(^|[^\d.,])1 (Pflanzen|Zellen|Horste|Stellen|Tage|Wochen|Jahre|Portionen)\b/,
    };
    // Of how many in all: there is never one weather year, nor one week of a plan.
    const all: Record<string, string> = { place: 'fridge', years: '30', asked: '52' };
    for (const { properties } of kPhrases) {
      const values = Object.fromEntries(properties.values.required.map((name) => [name, all[name] ?? '1']));
      const key = properties.key.const;
      expect(en.said[key]!(values), key).not.toMatch(several.en);
      expect(de.said[key]!(values), key).not.toMatch(several.de);
    }
  });
  it('name every crop of the library in German', () => {
    const crops = Object.keys(import.meta.glob('../../crops/*.toml'))
      .map((path) => path.replace(/^.*\/|\.toml$/g, ''))
      .filter((name) => name !== 'sources');
    expect(crops.length).toBeGreaterThan(40);
    expect(crops.filter((crop) => !(crop in de.crops))).toEqual([]);
  });
  it('say how to handle what every crop of the library gives, in English as the library does', () => {
    const files = import.meta.glob('../../crops/*.toml', { query: '?raw', import: 'default', eager: true });
    const sentences = Object.fromEntries(
      Object.entries(files).flatMap(([path, text]) => {
        const sentence = /^handling = "(.*)"$/m.exec(String(text))?.[1];
        return sentence ? [[path.replace(/^.*\/|\.toml$/g, ''), sentence]] : [];
      }),
    );
    expect(Object.keys(sentences).length).toBeGreaterThan(40);
    const celsius = (text: string) =>
      text.replace(/\{(\d+)\|(\d+)\}/g, '$1 to $2 °C').replace(/\{(\d+)\}/g, '$1 °C');
    const said = Object.entries(en.handling).map(([crop, text]) => [crop, celsius(text)]);
    expect(Object.fromEntries(said)).toEqual(sentences);
  });
  it('give the same temperatures for it in every language', () => {
    const temperatures = (text: string | undefined) => text?.match(/\{[^}]*\}/g);
    for (const [crop, text] of Object.entries(en.handling)) {
      expect(temperatures(de.handling[crop]), crop).toEqual(temperatures(text));
      expect(de.handling[crop], crop).not.toMatch(/°/);
    }
  });
  it('have a sentence for every code of a problem, and one for a server out of reach', () => {
    const codes = [...problemSource.matchAll(/case ProblemCode::\w+: return "([a-z-]+)";/g)].map(
      (match) => match[1]!,
    );
    expect(codes.length).toBeGreaterThan(20);
    expect(Object.keys(en.problems.codes).sort()).toEqual([...codes, 'changed-elsewhere', 'offline'].sort());
  });
});
