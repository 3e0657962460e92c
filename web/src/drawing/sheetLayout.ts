// Where each bed and tray lies down the sheet, and each stay inside it.

import type { Bed, Tray } from '../api/types';
import type { Stay } from '../domain/season';
import { cellsOf, layCells, type CellStretch } from '../domain/trayLanes';
import type { PixelsPerDay } from './timeAxis';
import type { Day } from '../domain/days';

export interface Band {
  id: string;
  kind: 'bed' | 'tray';
  name: string;
  /** CSS pixels from the top of the sheet. */
  top: number;
  height: number;
  /** Metres or cells that the height stands for. */
  extent: number;
  pixelsPerUnit: number;
}

/** Across in days and down in pixels: another zoom leaves every patch as it is. */
export interface Patch {
  key: string;
  stay: Stay;
  band: Band;
  /** Days from the origin of the layout to its left edge. */
  fromDay: number;
  days: number;
  y: number;
  height: number;
}

export interface SheetLayout {
  bands: Band[];
  patches: Patch[];
  /** The patches of each band, in the order of `bands`. */
  byBand: { band: Band; patches: Patch[] }[];
  height: number;
  /** What it was made with and of, so that the next one need not work out again what stays the same. */
  origin: Day;
  trays: Map<string, { stays: Stay[]; cells: CellStretch[] }>;
}

const kGapPx = 10;
const kSectionGapPx = 26;
/** A tray of 100 cells is drawn as high as this many metres of bed. */
const kMetresPerHundredCells = 2.4;
/** So high few beds are drawn together at the least, that names find room in their stands: chosen. */
const kFewBedsPx = 240;
const kMostPixelsPerMetre = 120;

/** The scale down the sheet: the one wished for, and a larger one where the beds are few and short. */
export function bedScale(beds: Pick<Bed, 'length_m'>[], wished: number): number {
  const allM = beds.reduce((sum, bed) => sum + bed.length_m, 0);
  return allM > 0 ? Math.max(wished, Math.min(kMostPixelsPerMetre, kFewBedsPx / allM)) : wished;
}

/** Room for a name beside the smallest bed. */
const kLeastBandPx = 30;

function bandsOf(beds: Bed[], trays: Tray[], trayCells: Map<string, number>, pixelsPerMetre: number): Band[] {
  const bands: Band[] = [];
  let top = 0;
  const add = (kind: Band['kind'], id: string, name: string, extent: number, wantedPx: number) => {
    const height = Math.max(kLeastBandPx, wantedPx);
    bands.push({ id, kind, name, top, height, extent, pixelsPerUnit: height / extent });
    top += height + kGapPx;
  };
  for (const bed of beds) add('bed', bed.id, bed.name, bed.length_m, bed.length_m * pixelsPerMetre);
  if (trays.length > 0 && bands.length > 0) top += kSectionGapPx;
  for (const tray of trays) {
    const cells = Math.max(tray.cells, trayCells.get(tray.id) ?? 0, 1);
    add('tray', tray.id, tray.name, cells, (cells / 100) * kMetresPerHundredCells * pixelsPerMetre);
  }
  return bands;
}

function patchOf(stay: Stay, band: Band, from: number, to: number, origin: Day): Patch {
  return {
    key: `${stay.where}-${stay.stand.id}`,
    stay,
    band,
    fromDay: stay.first - origin,
    days: stay.last + 1 - stay.first,
    y: band.top + from * band.pixelsPerUnit,
    height: Math.max(3, (to - from) * band.pixelsPerUnit),
  };
}

const sameBand = (a: Band, b: Band) =>
  a.id === b.id &&
  a.kind === b.kind &&
  a.name === b.name &&
  a.top === b.top &&
  a.height === b.height &&
  a.extent === b.extent;

/** Whether the patch of a stay in a bed must come out as it is: all that it is made of is the same. */
const standsStill = (known: Patch, stay: Stay, band: Band, origin: Day, before?: SheetLayout) =>
  known.stay === stay && known.band === band && before?.origin === origin;

const samePatch = (a: Patch, b: Patch) =>
  a.stay === b.stay &&
  a.band === b.band &&
  a.fromDay === b.fromDay &&
  a.days === b.days &&
  a.y === b.y &&
  a.height === b.height;

const sameItems = <T>(a: T[] | undefined, b: T[]): a is T[] =>
  a !== undefined && a.length === b.length && a.every((each, i) => each === b[i]);

/** Groups patches by band, keeping the former lists where they hold the same. */
function grouped(bands: Band[], patches: Patch[], before: SheetLayout | undefined): SheetLayout['byBand'] {
  const lists = new Map<Band, Patch[]>(bands.map((band) => [band, []]));
  for (const patch of patches) lists.get(patch.band)?.push(patch);
  const former = new Map(before?.byBand.map((each) => [each.band, each]));
  return bands.map((band) => {
    const known = former.get(band);
    const list = lists.get(band) ?? [];
    return known && sameItems(known.patches, list) ? known : { band, patches: list };
  });
}

/** The cells of each tray; laid out anew only where other stays are in it. */
function cellsOfTrays(trays: Tray[], stays: Stay[], before: SheetLayout | undefined): SheetLayout['trays'] {
  const inTrays = stays.filter((stay) => stay.where === 'tray' && cellsOf(stay) > 0);
  return new Map(
    trays.map((tray) => {
      const own = inTrays.filter((stay) => stay.place === tray.id);
      const known = before?.trays.get(tray.id);
      return [tray.id, known && sameItems(known.stays, own) ? known : { stays: own, cells: layCells(own) }];
    }),
  );
}

/**
 * Lays out a season: beds in the garden's order, then trays. Stays in unknown places are left out. Days are counted
 * from `origin`, which should stay the same while a sheet is shown. What is the same as
 * in the layout `before` is the same object again, so that only what changed is drawn again.
 */
export function layOut(
  beds: Bed[],
  trays: Tray[],
  stays: Stay[],
  origin: Day,
  pixelsPerMetre: number,
  before?: SheetLayout,
): SheetLayout {
  const byTray = cellsOfTrays(trays, stays, before);
  const inTrays = [...byTray.values()].flatMap((tray) => tray.cells);
  const highest = new Map<string, number>();
  for (const cell of inTrays) {
    highest.set(cell.stay.place, Math.max(highest.get(cell.stay.place) ?? 0, cell.toCell));
  }
  const bands = bandsOf(beds, trays, highest, pixelsPerMetre).map((band, i) => {
    const known = before?.bands[i];
    return known && sameBand(known, band) ? known : band;
  });
  const byKey = new Map(bands.map((band) => [`${band.kind}:${band.id}`, band]));
  const former = new Map(before?.patches.map((patch) => [patch.key, patch]));
  const patches: Patch[] = [];
  const add = (patch: Patch) => {
    const known = former.get(patch.key);
    patches.push(known && samePatch(known, patch) ? known : patch);
  };
  for (const stay of stays) {
    const band = stay.where === 'bed' ? byKey.get(`bed:${stay.place}`) : undefined;
    if (!band) continue;
    const known = former.get(`bed-${stay.stand.id}`);
    if (known && standsStill(known, stay, band, origin, before)) patches.push(known);
    else add(patchOf(stay, band, stay.stand.from_m, stay.stand.to_m, origin));
  }
  for (const cell of inTrays) {
    const band = byKey.get(`tray:${cell.stay.place}`);
    if (band) add(patchOf(cell.stay, band, cell.fromCell, cell.toCell, origin));
  }
  const lastBand = bands.at(-1);
  return {
    bands,
    patches,
    byBand: grouped(bands, patches, before),
    height: lastBand ? lastBand.top + lastBand.height : 0,
    origin,
    trays: byTray,
  };
}

/** How many bands are drawn in the next step, when `drawn` of them are: all that begin above `bottomPx`, and as many more as
 *  hold `patches` patches. */
export function bandsAfter(
  byBand: SheetLayout['byBand'],
  drawn: number,
  bottomPx: number,
  patches: number,
): number {
  let count = drawn;
  let added = 0;
  for (const group of byBand.slice(drawn)) {
    if (group.band.top >= bottomPx && added >= patches) break;
    count += 1;
    added += group.patches.length;
  }
  return count;
}

/** The patch that the arrow key leads to: the nearest in that direction, by the distance between middles. */
export function neighbour(
  patches: Patch[],
  from: Patch,
  key: string,
  pixelsPerDay: PixelsPerDay,
): Patch | null {
  const middle = (p: Patch) => ({ x: (p.fromDay + p.days / 2) * pixelsPerDay, y: p.y + p.height / 2 });
  const here = middle(from);
  let best: Patch | null = null;
  let bestCost = Infinity;
  for (const patch of patches) {
    if (patch.key === from.key) continue;
    const there = middle(patch);
    const dx = there.x - here.x;
    const dy = there.y - here.y;
    const ahead = { ArrowRight: dx, ArrowLeft: -dx, ArrowDown: dy, ArrowUp: -dy }[key];
    if (ahead === undefined || ahead <= 0.5) continue;
    const aside = key === 'ArrowRight' || key === 'ArrowLeft' ? Math.abs(dy) : Math.abs(dx) / 8;
    const cost = ahead + 3 * aside;
    if (cost < bestCost) {
      bestCost = cost;
      best = patch;
    }
  }
  return best;
}
