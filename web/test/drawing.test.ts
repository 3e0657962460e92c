import { describe, expect, it } from 'vitest';
import type { Bed, Tray } from '../src/api/types';
import { bedStay, presence, readyOn } from '../src/domain/season';
import { clumpPlaces, clumpRows, clumpView, shareGrown } from '../src/drawing/clumps';
import { drawFan } from '../src/drawing/fan';
import { fitLabel, shortName, wordsInSight } from '../src/drawing/label';
import { notchPath } from '../src/drawing/notches';
import { bedScale, layOut, neighbour } from '../src/drawing/sheetLayout';
import { stopsOf } from '../src/drawing/stops';
import { axisFor, dayAt, minorMarks, monthMarks, widthOf, xOf } from '../src/drawing/timeAxis';
import { makeStand, makeStay, parseDay } from './helpers';

const first = parseDay('2027-01-01');
const last = parseDay('2027-12-31');

describe('time axis', () => {
  it('leads from a day to its pixels and back at every zoom', () => {
    for (const zoom of ['year', 'month', 'week'] as const) {
      const axis = axisFor(zoom, first, last, 800);
      for (let day = first; day <= last; day += 1) expect(dayAt(axis, xOf(axis, day) + 0.01)).toBe(day);
      expect(widthOf(axis)).toBeGreaterThanOrEqual(800);
    }
  });
  it('shows twelve months always, weeks and days only where they have room', () => {
    expect(monthMarks(first, last)).toHaveLength(12);
    const kinds = (zoom: 'year' | 'month' | 'week', kind: string) =>
      minorMarks(axisFor(zoom, first, last, 800).pixelsPerDay, first, last).filter(
        (mark) => mark.kind === kind,
      ).length;
    expect(kinds('year', 'week')).toBe(0);
    expect(kinds('month', 'week')).toBe(52);
    expect(kinds('month', 'day')).toBe(0);
    expect(kinds('week', 'day')).toBe(365 - 52);
  });
  it('marks no day outside the days asked for', () => {
    const days = minorMarks(57, first + 40, first + 60).map((mark) => mark.day);
    expect([days[0], days.at(-1), days.length]).toEqual([first + 40, first + 60, 21]);
  });
});

describe('gradient of a patch', () => {
  const probability = Array.from({ length: 95 }, (_, i) => 1 / (1 + Math.exp(-(i - 60) / 5)));
  const stay = bedStay(makeStand({ ready_daily: { first: '2027-04-10', probability } }))!;
  it('lies within 0.03 of the daily chance on every day', () => {
    const stops = stopsOf(stay);
    for (let day = stay.first; day <= stay.last; day += 1) {
      const offset = (day - stay.first) / (stay.last - stay.first);
      const next = stops.findIndex((stop) => stop.offset >= offset - 1e-12);
      const b = stops[next]!;
      const a = stops[Math.max(0, next - 1)]!;
      const part = b.offset === a.offset ? 0 : (offset - a.offset) / (b.offset - a.offset);
      expect(Math.abs(a.ready + part * (b.ready - a.ready) - readyOn(stay.stand, day))).toBeLessThanOrEqual(
        0.03 + 1e-9,
      );
      expect(Math.abs(a.present + part * (b.present - a.present) - presence(stay, day))).toBeLessThanOrEqual(
        0.03 + 1e-9,
      );
    }
  });
  it('needs few stops', () => {
    expect(stopsOf(stay).length).toBeLessThan(14);
  });
  it('runs from edge to edge', () => {
    const stops = stopsOf(stay);
    expect(stops[0]!.offset).toBe(0);
    expect(stops.at(-1)!.offset).toBe(1);
  });
  it('is never ready in a tray', () => {
    expect(stopsOf({ ...stay, where: 'tray' }).every((stop) => stop.ready === 0)).toBe(true);
  });
});

describe('layout of the sheet', () => {
  const beds: Bed[] = [
    { id: 'long', name: 'Long bed', length_m: 6, width_m: 1.2, sun: 'full', kind: 'raised' },
    { id: 'low', name: 'Low bed', length_m: 3, width_m: 1.2, sun: 'full', kind: 'raised' },
  ];
  const trays: Tray[] = [{ id: 'sill', name: 'Shelf', cells: 100, place: 'indoors', temp_c: 19 }];
  const stays = [
    makeStay('a', '2027-03-01', '2027-06-01', { from_m: 1, to_m: 3 }),
    makeStay('b', '2027-06-10', '2027-09-01', { from_m: 1, to_m: 3 }),
    makeStay('c', '2027-03-01', '2027-06-01', { bed: 'low', from_m: 0, to_m: 3 }),
    makeStay('d', '2027-02-01', '2027-03-01', { tray: 'sill', cells: 25 }, 'tray'),
    makeStay('e', '2027-02-01', '2027-03-01', { bed: 'nowhere' }),
  ];
  const layout = layOut(beds, trays, stays, first, 40);
  const patch = (id: string) => layout.patches.find((each) => each.stay.stand.id === id)!;

  it('draws beds to one scale of length', () => {
    expect(layout.bands.slice(0, 2).map((band) => band.height)).toEqual([240, 120]);
    expect(patch('a').height).toBeCloseTo(80);
    expect(patch('a').y).toBeCloseTo(40);
    expect(patch('c').y).toBeCloseTo(layout.bands[1]!.top);
  });
  it('draws a quarter of a tray as a quarter of its height', () => {
    expect(patch('d').height).toBeCloseTo(layout.bands[2]!.height / 4);
  });
  it('leaves out what stands in no known place', () => {
    expect(patch('e')).toBeUndefined();
  });
  it('counts the last day as taken', () => {
    expect(first + patch('a').fromDay + patch('a').days).toBe(parseDay('2027-06-02'));
  });
  it('leads by the arrows to the neighbour in that direction', () => {
    expect(neighbour(layout.patches, patch('a'), 'ArrowRight', 2)!.stay.stand.id).toBe('b');
    expect(neighbour(layout.patches, patch('b'), 'ArrowLeft', 2)!.stay.stand.id).toBe('a');
    expect(neighbour(layout.patches, patch('a'), 'ArrowDown', 2)!.stay.stand.id).toBe('c');
    expect(neighbour(layout.patches, patch('a'), 'ArrowUp', 2)).toBeNull();
  });
});

describe('words in a patch', () => {
  const sevenEach = (text: string) => 7 * text.length;
  it('takes the longest that fits, cuts the last, and says nothing where nothing fits', () => {
    expect(fitLabel(['Beet · 34', 'Beet'], 200, 30, sevenEach)).toBe('Beet · 34');
    expect(fitLabel(['Beet · 34', 'Beet'], 45, 30, sevenEach)).toBe('Beet');
    expect(fitLabel(['Courgette · 2', 'Courgette'], 45, 30, sevenEach)).toBe('Cour…');
    expect(fitLabel(['Beet'], 20, 30, sevenEach)).toBe('');
    expect(fitLabel(['Beet'], 200, 9, sevenEach)).toBe('');
  });
  it('never come out wider than the patch, so that no count is cut to a smaller one', () => {
    for (let width = 10; width < 260; width += 3) {
      const words = fitLabel(['Lettuce · 120', 'Lettuce'], width, 30, sevenEach);
      expect(sevenEach(words)).toBeLessThanOrEqual(width);
      if (words.includes('·')) expect(words).toBe('Lettuce · 120');
    }
  });
  it('leave out what a name says in brackets', () => {
    expect(shortName('Courgette (summer squash)')).toBe('Courgette');
    expect(shortName('Bush bean')).toBe('Bush bean');
  });
  it('are laid out for the patches in sight alone, and follow the edge of what is seen', () => {
    const bed: Bed = { id: 'b', name: 'B', length_m: 6, width_m: 1, sun: 'full', kind: 'raised' };
    const stays = [
      makeStay('early', '2027-01-11', '2027-03-01', { bed: 'b', from_m: 0, to_m: 1 }),
      makeStay('late', '2027-11-01', '2027-12-01', { bed: 'b', from_m: 0, to_m: 1 }),
      makeStay('below', '2027-01-11', '2027-03-01', { bed: 'low', from_m: 5, to_m: 6 }),
    ];
    const { byBand } = layOut(
      [
        { ...bed, length_m: 9 },
        { ...bed, id: 'low' },
      ],
      [],
      stays,
      first,
      40,
    );
    const sight = { left: 0, right: 400, top: 0, bottom: 300 };
    const words = (edge: number) =>
      wordsInSight(byBand, 0, 4, sight, edge, (each) => [each.stay.stand.id], sevenEach);
    expect(words(0)).toEqual([{ words: 'early', x: 44, y: 15 }]);
    expect(words(100)).toEqual([{ words: 'early', x: 104, y: 15 }]);
  });
});

describe('words of a patch that the next one overlaps', () => {
  it('end where that one begins', () => {
    const bed: Bed = { id: 'b', name: 'B', length_m: 6, width_m: 1, sun: 'full', kind: 'raised' };
    const words = (lowerFromM: number) => {
      const stays = [
        makeStay('a', '2027-01-01', '2027-03-11', { bed: 'b', from_m: 0, to_m: 2 }),
        makeStay('b', '2027-01-21', '2027-04-01', { bed: 'b', from_m: lowerFromM, to_m: 6 }),
      ];
      const sight = { left: 0, right: 900, top: 0, bottom: 900 };
      return wordsInSight(
        layOut([bed], [], stays, first, 40).byBand,
        0,
        4,
        sight,
        0,
        (each) => (each.stay.stand.id === 'a' ? ['a long name', 'short'] : ['b']),
        (text) => 7 * text.length,
      ).map((each) => each.words);
    };
    expect(words(1)).toEqual(['short', 'b']);
    expect(words(2)).toEqual(['a long name', 'b']);
  });
});

describe('words of a stay in a tray', () => {
  const tray = { id: 't', name: 'T', cells: 100, place: 'indoors', temp_c: 19 };
  const inTray = (id: string, from: string, to: string) =>
    makeStay(id, from, to, { tray: 't', cells: 60, method: 'start-indoors' }, 'tray');
  const wordsOf = (stays: ReturnType<typeof inTray>[], edgePx = 0) =>
    wordsInSight(
      layOut([], [tray], stays, first, 100).byBand,
      0,
      1,
      { left: 0, right: 900, top: 0, bottom: 900 },
      edgePx,
      (each) => [`name of ${each.stay.stand.id}`],
      (text) => 7 * text.length,
    ).map((each) => each.words);

  it('run on over free cells, and end where another stay begins', () => {
    const short = inTray('a', '2027-02-01', '2027-02-20');
    expect(wordsOf([short])).toEqual(['name of a']);
    expect(wordsOf([short, inTray('b', '2027-03-11', '2027-03-30')])).toEqual(['nam…', 'name of b']);
  });

  it('are not told of a stay that lies left of what is seen', () => {
    expect(wordsOf([inTray('a', '2027-02-01', '2027-02-20')], 100)).toEqual([]);
  });
});

describe('the notches of a first pick', () => {
  it('stay clear of the letters of the name above, also on a short patch', () => {
    // The letters of the 12 px type end 4 px below the middle of their line.
    const kBelowMiddlePx = 4;
    const bed: Bed = { id: 'b', name: 'B', length_m: 6, width_m: 1, sun: 'full', kind: 'raised' };
    for (const heightPx of [13, 16, 20, 24, 30, 60]) {
      const stay = makeStay('a', '2027-04-01', '2027-09-01', { bed: 'b', from_m: 0, to_m: heightPx / 40 });
      const layout = layOut([bed], [], [stay], first, 40);
      const patch = layout.patches[0]!;
      expect(patch.height).toBeCloseTo(heightPx);
      const sight = { left: 0, right: 2000, top: 0, bottom: 900 };
      const [word] = wordsInSight(
        layout.byBand,
        0,
        4,
        sight,
        0,
        () => ['name'],
        (text) => 7 * text.length,
      );
      const depths = [...notchPath([patch], first).matchAll(/v-([\d.]+)/g)].map((each) => Number(each[1]));
      expect(depths).toHaveLength(3);
      expect(Math.min(...depths)).toBeGreaterThanOrEqual(1);
      const top = patch.y + patch.height - Math.max(...depths);
      expect(top).toBeGreaterThanOrEqual(word!.y + kBelowMiddlePx - 0.05);
    }
  });
});

describe('fan', () => {
  const fan = { first: '2027-04-10', p10: [0, 10, 60], p50: [0, 20, 100], p90: [0, 40, 180] };
  const drawing = drawFan(fan, { width: 400, height: 200, left: 50, right: 10, top: 10, bottom: 20 }, 1);
  it('puts the ends of time at the ends of the frame, and more weight higher', () => {
    expect(drawing.xOf(drawing.first)).toBe(50);
    expect(drawing.xOf(drawing.last)).toBe(390);
    expect(drawing.yOf(0)).toBe(180);
    expect(drawing.yOf(180)).toBeLessThan(drawing.yOf(100));
    expect(drawing.yOf(180)).toBeGreaterThanOrEqual(10);
  });
  it('has room for what was observed far beyond it', () => {
    const seen = drawFan(
      fan,
      { width: 400, height: 200, left: 50, right: 10, top: 10, bottom: 20 },
      1,
      [400],
    );
    expect(seen.yOf(400)).toBeGreaterThanOrEqual(10);
    expect(drawing.yOf(400)).toBeLessThan(10);
  });
  it('never leads out of the known days', () => {
    expect(drawing.dayAt(-100)).toBe(drawing.first);
    expect(drawing.dayAt(9999)).toBe(drawing.last);
  });
  it('draws a fan of nothing without a broken number', () => {
    const flat = drawFan(
      { first: '2027-04-10', p10: [0, 0], p50: [0, 0], p90: [0, 0] },
      { width: 400, height: 200, left: 50, right: 10, top: 10, bottom: 20 },
      1,
    );
    expect(flat.band + flat.middle).not.toMatch(/NaN|Infinity/);
  });
});

describe('clumps from above', () => {
  const beets = { clumps: 34, spacing_mm: 140, from_m: 1.6, to_m: 2.6 };
  it('sets rows as far apart as was told, and every second one half a spacing on where they are offset', () => {
    const stand = { clumps: 8, spacing_mm: 200, from_m: 0, to_m: 1 };
    const rows = clumpPlaces({ ...stand, arrangement: 'rows', row_spacing_mm: 400 }, 0.8);
    expect(rows.slice(0, 3).map((place) => place.acrossM)).toEqual([0.2, expect.closeTo(0.6), 0.2]);
    expect(rows.slice(0, 3).map((place) => place.alongM)).toEqual([0.1, 0.1, expect.closeTo(0.3)]);
    const offset = clumpPlaces({ ...stand, arrangement: 'offset', row_spacing_mm: 173.2 }, 0.8);
    expect(offset[1]!.acrossM - offset[0]!.acrossM).toBeCloseTo(0.1732);
    const distance = (a: number, b: number) =>
      Math.hypot(offset[a]!.alongM - offset[b]!.alongM, offset[a]!.acrossM - offset[b]!.acrossM);
    expect(distance(0, 1)).toBeCloseTo(0.2, 3);
    expect(distance(0, 4)).toBeCloseTo(0.2, 3);
  });

  it('stand the spacing apart, along and across', () => {
    const places = clumpPlaces(beets, 1.2);
    const { across, rows, lengthM } = clumpRows(beets, 1.2);
    expect([across, rows]).toEqual([8, 5]);
    expect(lengthM).toBeCloseTo(0.7, 9);
    expect(places).toHaveLength(34);
    for (const [i, place] of places.entries()) {
      expect(place.alongM).toBeGreaterThan(0);
      expect(place.alongM).toBeLessThan(lengthM);
      expect(place.acrossM).toBeGreaterThanOrEqual(0.07);
      expect(place.acrossM).toBeLessThanOrEqual(1.2 - 0.07);
      const beside = places[i + 1];
      if (beside && beside.alongM === place.alongM)
        expect(beside.acrossM - place.acrossM).toBeCloseTo(0.14, 9);
      const behind = places[i + across];
      if (behind) expect(behind.alongM - place.alongM).toBeCloseTo(0.14, 9);
    }
  });
  it('are drawn to one scale, and cut where they could not be told apart', () => {
    const short = clumpView(beets, 1.2, 600);
    expect(short).toMatchObject({ rows: 5, isCut: false, drawnM: 1 });
    expect(short.pixelsPerMetre).toBeCloseTo(260 / 1.2, 9);
    const carrots = { clumps: 3000, spacing_mm: 40, from_m: 0, to_m: 4 };
    const long = clumpView(carrots, 1.2, 330);
    expect(long.isCut).toBe(true);
    expect(long.pixelsPerMetre * 0.04).toBeGreaterThanOrEqual(6);
    expect(long.drawnM).toBeCloseTo(long.rows * 0.04, 9);
    expect(long.drawnM * long.pixelsPerMetre).toBeLessThanOrEqual(330);
    expect(clumpPlaces(carrots, 1.2, long.rows)).toHaveLength(long.rows * 30);
  });
  it('share a planned stretch whose last row is not full, each with its ground', () => {
    // Seven lettuces 28 cm apart, four across: the plan gives them 7/4 of a row's length, not two rows.
    const lettuces = { clumps: 7, spacing_mm: 280, from_m: 3.11, to_m: 3.6 };
    const { across, rows, apartM, lengthM } = clumpRows(lettuces, 1.2);
    expect([across, rows]).toEqual([4, 2]);
    expect(apartM).toBeCloseTo(0.245, 9);
    expect(lengthM).toBeCloseTo(0.49, 9);
    const places = clumpPlaces(lettuces, 1.2);
    expect(places[1]!.acrossM - places[0]!.acrossM).toBeCloseTo(0.28, 9);
    expect(places[5]!.acrossM - places[4]!.acrossM).toBeCloseTo(1.12 / 3, 9);
    for (const [i, a] of places.entries())
      for (const b of places.slice(i + 1))
        expect(Math.hypot(a.alongM - b.alongM, a.acrossM - b.acrossM)).toBeGreaterThan(0.24);
  });
  it('stand beyond a stretch that was set too tight, instead of being squeezed into it', () => {
    const tight = { ...beets, to_m: 2.1 };
    expect(clumpView(tight, 1.2, 600).drawnM).toBeCloseTo(0.7, 9);
  });
  it('grow from nothing to all', () => {
    expect(shareGrown({ first: 10, p50: [0, 5, 10] }, 9)).toBe(0);
    expect(shareGrown({ first: 10, p50: [0, 5, 10] }, 11)).toBe(0.5);
    expect(shareGrown({ first: 10, p50: [0, 5, 10] }, 99)).toBe(1);
  });
});

describe('the scale of few beds', () => {
  it('lets names stand in one short bed, and leaves many as they were', () => {
    expect(bedScale([{ length_m: 2.4 }], 34)).toBe(100);
    expect(bedScale([{ length_m: 1 }], 34)).toBe(120);
    expect(
      bedScale(
        Array.from({ length: 10 }, () => ({ length_m: 2.4 })),
        34,
      ),
    ).toBe(34);
    expect(bedScale([], 34)).toBe(34);
  });
});
