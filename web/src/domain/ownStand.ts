// A stand put in by hand: from what the form holds to what the server is asked for.

import type { GardenEvent, OwnStand, Stand, SowingWindow } from '../api/types';

/** Where its plants come from. */
export type Origin = 'here' | 'tray' | 'bought';

/** What the form holds; nothing in a number: as is usual for the crop, or where there is room first. */
export interface OwnStandDraft {
  crop: string;
  variety: string;
  bed: string;
  clumps: number;
  day: string;
  origin: Origin;
  tray: string;
  spacingMm: number | null;
  fromM: number | null;
  perClump: number | null;
  size: 'small' | 'large';
}

/** The fields of the form, by the names under which the server tells a problem. */
export const kOwnStandFields = [
  'crop',
  'variety',
  'bed',
  'clumps',
  'day',
  'tray',
  'spacing_mm',
  'from_m',
  'plants_per_clump',
  'size',
] as const;
export type OwnStandField = (typeof kOwnStandFields)[number];

/** Days before and after today that a stand may be put in for: as far ahead as the server lets one be put in or moved; further back none stands still. */
export const kFarthestDays = 730;

/** What was left as usual is not sent, so that the crop decides. */
export function ownStandOf(draft: OwnStandDraft): OwnStand {
  const stand: OwnStand = { crop: draft.crop, bed: draft.bed, clumps: draft.clumps, day: draft.day };
  if (draft.origin === 'bought') stand.bought = true;
  if (draft.origin === 'tray') stand.tray = draft.tray;
  if (draft.variety) stand.variety = draft.variety;
  if (draft.spacingMm !== null) stand.spacing_mm = draft.spacingMm;
  if (draft.fromM !== null) stand.from_m = draft.fromM;
  if (draft.perClump !== null) stand.plants_per_clump = draft.perClump;
  if (draft.size !== 'large') stand.size = draft.size;
  return stand;
}

/** Names of the server for what is one field of the form. */
const kFieldOf: Partial<Record<string, OwnStandField>> = {
  // Whether plants were bought is chosen where the tray is.
  bought: 'tray',
  method: 'tray',
  to_m: 'from_m',
  sow: 'day',
};

/** The field of the form beside which a problem belongs; nothing for one of the whole. "stands[3].bed" is told by its end. */
export function fieldOfProblem(field: string): OwnStandField | undefined {
  const name = field.split('.').at(-1) ?? '';
  return kOwnStandFields.find((each) => each === (kFieldOf[name] ?? name));
}

/** Whether a stand is in the ground, and so where it is and not where it is planned. */
export const inGround = (stand: Stand): boolean =>
  stand.state !== 'planned' &&
  stand.state !== 'finished' &&
  (stand.method === 'direct-sow' || stand.state === 'growing');

/** Whether plants may be set out of it still: those of its tray, or bought ones instead. */
export const waitsForPlants = (stand: Stand): boolean =>
  stand.method === 'direct-sow'
    ? stand.state === 'planned'
    : stand.state !== 'growing' && stand.state !== 'finished';

/** Whether a crop is ever set out here as plants: it then has days for it. */
export const canBeSetOut = (crop: string, windows: SowingWindow[]): boolean =>
  windows.some((window) => window.crop === crop && window.method !== 'direct-sow');

/** How many are set out as a rule: by clumps where a tray holds them so, by plants where they were bought. */
export const setOutCount = (stand: Pick<Stand, 'clumps' | 'plants_per_clump'>, bought: boolean): number =>
  bought ? Math.round(stand.clumps * stand.plants_per_clump) : stand.clumps;

/** Where a stand of a length lies in a bed, from the place wished for, and never beyond the far end. */
export const fittedFrom = (fromM: number, lengthM: number, bedLengthM: number): number =>
  Math.max(0, Math.min(fromM, bedLengthM - lengthM));

/** The text of a setting out of plants that were bought; those of the garden's own tray need none. */
export const kBoughtText = 'bought';
/** What the program notes of a stand that is put in for a day to come. */
export const kByHandText = 'put in by hand';

/** What the program notes of a planned stand that is moved. */
export const kMovedText = 'moved by hand';

/** Whether an entry is the note that holds a planned stand where it was moved, as the program names it. */
export const isMoving = (event: GardenEvent, stand: string): boolean =>
  event.stand === stand && event.kind === 'noted' && event.id.startsWith(`moved-${stand}-`);

/** Whether an entry is the one by which a stand was put in by hand, as the program names it. */
export const isMaking = (event: GardenEvent, stand: string): boolean =>
  event.stand === stand && event.id.startsWith(`own-${stand}-`);

const kBoughtWord = /^\s*bought(?=$|[ ,])[ ,]*/i;

/** Whether the text of a setting out begins by saying that the plants were bought, as the program reads it. */
export const saysBought = (text: string | undefined): boolean => kBoughtWord.test(text ?? '');
/** What such a text says besides. */
export const besidesBought = (text: string): string => text.replace(kBoughtWord, '').trim();
