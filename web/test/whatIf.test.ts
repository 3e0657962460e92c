import { describe, expect, it } from 'vitest';
import type { TableAnswer } from '../src/api/types';
import { partsOf, tableChanges } from '../src/domain/whatIf';

const setup = {
  beds: [
    { id: 'a', name: 'A', length_m: 4, width_m: 1.2, sun: 'full' as const, kind: 'ground' as const },
    { id: 'b', name: 'B', length_m: 2, width_m: 1.2, sun: 'full' as const, kind: 'ground' as const },
  ],
  trays: [{ id: 't1', name: 'Sill', cells: 40, place: 'indoors' as const }],
  wants: [
    {
      id: 'w1',
      crop: 'carrot',
      amount_per_week: 300,
      unit: 'grams' as const,
      from: '07-01',
      to: '09-30',
      total: 2000,
    },
    { id: 'w2', crop: 'leek', amount_per_week: 2, unit: 'pieces' as const, from: '10-01', to: '12-31' },
  ],
};

describe('what if', () => {
  it('makes one bed longer and leaves the others', () => {
    expect(partsOf(setup, { part: 'beds', id: 'b', longerM: 1 }).beds?.map((bed) => bed.length_m)).toEqual([
      4, 3,
    ]);
    expect(partsOf(setup, undefined)).toEqual({});
  });

  it('adds a tray like one there is, under an id of its own', () => {
    const { trays } = partsOf(setup, { part: 'trays', id: 't1' });
    expect(trays?.map((tray) => tray.id)).toEqual(['t1', undefined]);
    expect(trays?.[1]?.cells).toBe(40);
  });

  it('wants another amount, in the week and in store', () => {
    const { wants } = partsOf(setup, { part: 'wants', id: 'w1', times: 0.5 });
    expect(wants?.map((want) => [want.amount_per_week, want.total])).toEqual([
      [150, 1000],
      [2, undefined],
    ]);
  });

  it('sets the table beside what it was, wish by wish', () => {
    const table = (reaches: number, wanted: number): TableAnswer => ({
      today: '2027-04-20',
      members: 10,
      wants: [{ want: 'w1', unit: 'grams', wanted, mean_reaches: reaches, weeks: [] }],
    });
    expect(tableChanges(table(100, 300), table(250, 600))).toEqual([
      { want: 'w1', unit: 'grams', wanted: 600, wantedBefore: 300, before: 100, after: 250 },
    ]);
    expect(tableChanges({ ...table(0, 0), wants: [] }, table(250, 600))[0]?.before).toBe(0);
  });
});
