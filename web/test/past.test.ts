import { describe, expect, it } from 'vitest';
import type { PastCrop, SetupBed } from '../src/api/types';
import { familiesOf, newPast, stretchSet } from '../src/domain/past';
import { de } from '../src/texts/de';
import { en } from '../src/texts/en';

const bed: SetupBed = { id: 'b1', name: 'Long', length_m: 6, width_m: 1.2, sun: 'full', kind: 'raised' };
const entry: PastCrop = { bed: 'b1', from_m: 1, to_m: 3, family: 'Apiaceae', year: 2025 };

describe('what grew before', () => {
  it('begins with the whole bed and last year', () => {
    expect(newPast(bed, 'Fabaceae', 2027)).toEqual({
      bed: 'b1',
      from_m: 0,
      to_m: 6,
      family: 'Fabaceae',
      year: 2026,
    });
  });
  it('offers the families of the crops and those already written, each once', () => {
    const crops = [{ family: 'Apiaceae' }, { family: 'Fabaceae' }, { family: 'Apiaceae' }];
    expect(familiesOf(crops, [entry, { ...entry, family: 'Rosaceae' }])).toEqual([
      'Apiaceae',
      'Fabaceae',
      'Rosaceae',
    ]);
  });
  it('keeps its stretch in the bed and longer than nothing', () => {
    expect(stretchSet(entry, 'to_m', 9, 6, 0.1)).toEqual({ from_m: 1, to_m: 6 });
    expect(stretchSet(entry, 'to_m', 0.5, 6, 0.1)).toEqual({ from_m: 1, to_m: 1.1 });
    expect(stretchSet(entry, 'from_m', 4, 6, 0.1)).toEqual({ from_m: 2.9, to_m: 3 });
    expect(stretchSet(entry, 'from_m', -1, 6, 0.1)).toEqual({ from_m: 0, to_m: 3 });
  });
});

describe('the families of the crop library', () => {
  const files = import.meta.glob<string>('../../crops/*.toml', {
    query: '?raw',
    import: 'default',
    eager: true,
  });
  const families = new Set(
    Object.values(files).flatMap((text) => /^family = "(.+)"$/m.exec(text)?.[1] ?? []),
  );
  it('are each told by crops that people know, in both languages, and no other', () => {
    expect(families.size).toBeGreaterThan(8);
    for (const catalogue of [en, de])
      expect(Object.keys(catalogue.families).sort()).toEqual([...families].sort());
  });
});
