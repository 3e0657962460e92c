import { describe, expect, it } from 'vitest';
import { bedsOnPaper, drawnBed, findPlaces, samePart } from '../src/domain/setup';
import { bedStepM } from '../src/domain/stepper';
import {
  householdKey,
  kPriorities,
  newWant,
  priorityLevel,
  proposedWants,
  readHousehold,
  scaledWants,
  setFor,
  withAmountsFor,
  wishChosen,
  groupsFree,
} from '../src/domain/wants';
import type { BuiltInPlace, SetupAnswer, SetupBed } from '../src/api/types';

describe('a part of the set-up', () => {
  const seen: SetupAnswer = {
    name: 'New garden',
    units: 'metric',
    cool_store: false,
    site: { name: '', latitude_deg: 0, longitude_deg: 0, elevation_m: 0 },
    normals: '',
    has_normals: false,
    lent_climate: null,
    weather_days: 0,
    beds: [],
    trays: [],
    wants: [],
    varieties: [],
    packets: [],
    past: [],
    stands: 0,
    events: 0,
    missing: [],
  };
  it('is the same whatever else changed', () => {
    const now = { ...seen, events: 3, name: 'Renamed', wants: [{ crop: 'beet' }] } as SetupAnswer;
    expect(samePart('beds', seen, now)).toBe(true);
    expect(samePart('place', seen, now)).toBe(true);
    expect(samePart('wants', seen, now)).toBe(false);
  });
  it('is another by any field under which it is told', () => {
    expect(samePart('about', seen, { ...seen, cool_store: true })).toBe(false);
    expect(samePart('place', seen, { ...seen, site: { ...seen.site, elevation_m: 1 } })).toBe(false);
  });
});

describe('a bed drawn from corner to corner', () => {
  it('is as long as its longer side, to a tenth of a metre, whichever way it is drawn', () => {
    expect(drawnBed({ x: 1, y: 1 }, { x: 3.42, y: 2.18 }, 0.1)).toEqual({ length_m: 2.4, width_m: 1.2 });
    expect(drawnBed({ x: 3.42, y: 2.18 }, { x: 1, y: 1 }, 0.1)).toEqual({ length_m: 2.4, width_m: 1.2 });
    expect(drawnBed({ x: 0, y: 0 }, { x: 1.2, y: 5 }, 0.1)).toEqual({ length_m: 5, width_m: 1.2 });
  });
  it('is drawn in half feet for who measures in feet', () => {
    // 4 ft 1 in by 7 ft 11 in of paper: 1 ft = 0.3048 m exactly.
    expect(drawnBed({ x: 0, y: 0 }, { x: 2.413, y: 1.2446 }, bedStepM('us'))).toEqual({
      length_m: 2.4384,
      width_m: 1.2192,
    });
  });
  it('is none when the hand only slipped', () => {
    expect(drawnBed({ x: 1, y: 1 }, { x: 3, y: 1.1 }, 0.1)).toBeNull();
    expect(drawnBed({ x: 1, y: 1 }, { x: 1, y: 1 }, 0.1)).toBeNull();
  });
  it('lies below those before it with a path between', () => {
    const bed: SetupBed = { name: 'a', length_m: 3, width_m: 1.2, sun: 'full', kind: 'raised' };
    const placed = bedsOnPaper([bed, { ...bed, width_m: 0.8 }, bed]);
    expect(placed.map((each) => Number(each.y.toFixed(2)))).toEqual([0, 1.7, 3]);
  });
});

describe('finding a place', () => {
  const place = (name: string, country = ''): BuiltInPlace => ({
    name,
    country,
    latitude_deg: 0,
    longitude_deg: 0,
    elevation_m: 0,
    source: '',
  });
  const places = [place('New Salem', 'US'), place('Salem OR', 'US'), place('Hobart', 'Australia')];
  it('takes all words in any order and puts those that begin so first', () => {
    expect(findPlaces(places, 'salem', 9).map((each) => each.name)).toEqual(['Salem OR', 'New Salem']);
    expect(findPlaces(places, 'us new', 9).map((each) => each.name)).toEqual(['New Salem']);
    expect(findPlaces(places, 'austr', 9).map((each) => each.name)).toEqual(['Hobart']);
    expect(findPlaces(places, '  ', 9)).toEqual([]);
    const marked = [place('Nuernberg', 'Germany'), place('Malaga', 'Spain'), place('Düsseldorf', 'Germany')];
    for (const typed of ['Nürnberg', 'nuernberg', 'Nurnberg', 'Nu\u0308rnberg'])
      expect(findPlaces(marked, typed, 9).map((each) => each.name)).toEqual(['Nuernberg']);
    expect(findPlaces(marked, 'málaga', 9)).toHaveLength(1);
    expect(findPlaces(marked, 'dusseldorf', 9)).toHaveLength(1);
    expect(findPlaces(places, 's', 1)).toHaveLength(1);
  });
});

describe('wishes', () => {
  const eaten = (crop: string, grams_per_week: number) => ({
    crop,
    grams_per_week,
    source: 'invented',
    note: '',
  });
  it('start from what people eat where it is known, else from a serving each', () => {
    expect(newWant('carrot', 3, eaten('carrot', 118))).toMatchObject({ amount_per_week: 350, unit: 'grams' });
    expect(newWant('radish', 1, eaten('radish', 4))).toMatchObject({ amount_per_week: 10, unit: 'grams' });
    expect(newWant('beet', 3)).toMatchObject({ amount_per_week: 3, unit: 'servings' });
  });
  it('are proposed in the order eaten, without what is wished for already', () => {
    const many = Array.from({ length: 20 }, (_, i) => eaten(`crop-${i}`, 200 - i));
    const proposed = proposedWants(many, 2, (crop) => crop !== 'crop-1');
    expect(proposed.map((want) => want.crop).slice(0, 3)).toEqual(['crop-0', 'crop-2', 'crop-3']);
    expect(proposed).toHaveLength(12);
  });
  it('grow and shrink with the household, and none falls to nothing', () => {
    const two = [newWant('beet', 2), { ...newWant('pea', 2), unit: 'grams' as const, amount_per_week: 300 }];
    expect(scaledWants(two, 2, 5).map((want) => want.amount_per_week)).toEqual([5, 750]);
    expect(scaledWants(two, 2, 1).map((want) => want.amount_per_week)).toEqual([1, 150]);
    expect(scaledWants([newWant('beet', 1)], 4, 1)[0]?.amount_per_week).toBe(1);
  });
  it('grow in what is to lie in store too, and what was not asked for stays unasked for', () => {
    const winter = { ...newWant('carrot', 2), amount_per_week: 0, total: 9000 };
    expect(scaledWants([winter], 2, 3)[0]).toMatchObject({ amount_per_week: 0, total: 13500 });
    expect(scaledWants([{ ...winter, amount_per_week: 3, total: 0 }], 2, 4)[0]).toMatchObject({
      amount_per_week: 6,
      total: 0,
    });
    expect(scaledWants([newWant('beet', 2)], 2, 4)[0]).not.toHaveProperty('total');
  });
});

describe('for how many the wishes are', () => {
  const list = [newWant('beet', 2), newWant('pea', 2)];
  const unknown = readHousehold(null);
  it('is not known to a device that set none of them', () => {
    expect(unknown).toEqual({ people: 2, set: null });
    expect(setFor(unknown, list)).toBeNull();
    expect(setFor(withAmountsFor(unknown, null, list), list)).toBeNull();
  });
  it('is known of the amounts that it set, also as the server tells them again', () => {
    const kept = readHousehold(JSON.stringify({ ...withAmountsFor(unknown, 2, list), people: 4 }));
    expect([kept.people, setFor(kept, list)]).toEqual([4, 2]);
    const told = list.map((want, i) => ({
      ...want,
      id: `w${i}`,
      group: '',
      variety: '',
      total: 0,
      priority: 1,
    }));
    expect(setFor(kept, told)).toBe(2);
  });
  it('is known no more once another device changed an amount, nor of another garden of that name', () => {
    const kept = withAmountsFor(unknown, 2, list);
    expect(setFor(kept, scaledWants(list, 2, 5))).toBeNull();
    expect(setFor(kept, [...list, newWant('kale', 5)])).toBeNull();
    expect(setFor(kept, [])).toBeNull();
  });
  it('is kept by garden, and whatever else lies on the device counts for nothing', () => {
    expect(householdKey('Fennick Lane')).not.toBe(householdKey('Allotment'));
    // As an earlier version kept it.
    expect(readHousehold('{"people":5,"wantsFor":3}')).toEqual({ people: 5, set: null });
    expect(readHousehold('{"people":5,"set":{"people":0,"amounts":"[]"}}')).toEqual({ people: 5, set: null });
    for (const text of ['', '7', 'null', '{}', '{"people":0}', '{"people":"5"}'])
      expect(readHousehold(text)).toEqual({ people: 2, set: null });
  });
});

describe('how much a wish matters', () => {
  it('is told in words for what the page sets, and by its number for what was set elsewhere', () => {
    for (const [words, priority] of Object.entries(kPriorities)) expect(priorityLevel(priority)).toBe(words);
    expect(priorityLevel(1.5)).toBeUndefined();
  });
});

describe('a wish that any crop of a group meets', () => {
  it('is made of the group that was chosen, in servings, and names no crop', () => {
    const wish = wishChosen('group:cooking-greens', 3);
    expect(wish).toEqual({
      group: 'cooking-greens',
      amount_per_week: 3,
      unit: 'servings',
      from: '01-01',
      to: '12-31',
    });
    expect(wishChosen('carrot', 3).crop).toBe('carrot');
    expect(wishChosen('carrot', 3).group).toBeUndefined();
  });
  it('is offered once', () => {
    expect(groupsFree(['roots', 'salad'], [wishChosen('group:roots', 2)])).toEqual(['salad']);
  });
});

describe('a first amount', () => {
  it('is on US scales what people are said to eat', () => {
    const eaten = { crop: 'radish', grams_per_week: 24.9, source: 'x', note: '' };
    expect(wishChosen('radish', 1, eaten, 'us').amount_per_week).toBeCloseTo(0.9 * 28.349523125, 6);
    expect(wishChosen('radish', 1, eaten).amount_per_week).toBe(20);
  });
});
