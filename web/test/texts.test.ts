import { describe, expect, it } from 'vitest';
import { de } from '../src/texts/de';
import { en } from '../src/texts/en';

/** All paths of a catalogue, with what kind of text stands there. */
function shape(value: unknown, path = ''): string[] {
  if (typeof value === 'object' && value !== null)
    return Object.entries(value).flatMap(([key, each]) => shape(each, `${path}.${key}`));
  return [`${path}: ${typeof value}`];
}

describe('the catalogues', () => {
  it('say the same things in every language (crop names may be left to the library)', () => {
    const without = (paths: string[]) => paths.filter((path) => !path.startsWith('.crops'));
    expect(without(shape(de)).sort()).toEqual(without(shape(en)).sort());
  });
  it('leave no text empty but the unit that weights carry themselves', () => {
    for (const [name, catalogue] of Object.entries({ en, de })) {
      const empty = JSON.stringify(catalogue).match(/"[^"]+":""/g);
      expect(empty, name).toEqual(['"grams":""']);
    }
  });
  it('name every crop of the library in German', () => {
    const crops = Object.keys(import.meta.glob('../../crops/*.toml'))
      .map((path) => path.replace(/^.*\/|\.toml$/g, ''))
      .filter((name) => name !== 'sources');
    expect(crops.length).toBeGreaterThan(40);
    expect(crops.filter((crop) => !(crop in de.crops))).toEqual([]);
  });
});
