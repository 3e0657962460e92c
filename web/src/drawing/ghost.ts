// The outline that goes with the pointer while a planned stand is dragged.

import type { Bed } from '../api/types';
import { lengthIn } from '../domain/bedLength';
import { parseDay, type Day } from '../domain/days';
import { moveBy, type Move } from '../domain/moves';
import type { Band, Patch } from './sheetLayout';

/** Across in days from where patches are laid out, down in pixels, and the move it stands for. */
export interface Ghost {
  fromDay: number;
  days: number;
  y: number;
  height: number;
  move: Move;
}

/** How far the pointer has gone since the patch was taken hold of, and the band that it is over. */
export interface Carried {
  days: number;
  yPx: number;
  pointedAt: Band | null;
}

/**
 * Where a patch would come to lie: on the bed pointed at, or on its own where that is none. A patch in a tray moves in
 * time only. Nothing where its bed is not in the garden.
 */
export function ghostOf(patch: Patch, by: Carried, bands: Band[], beds: Bed[], today: Day): Ghost | null {
  const { stand, where } = patch.stay;
  const inTray = where === 'tray';
  const home = bands.find((band) => band.kind === 'bed' && band.id === stand.bed);
  const band = !inTray && by.pointedAt?.kind === 'bed' ? by.pointedAt : home;
  const bed = beds.find((each) => each.id === band?.id);
  if (!band || !bed) return null;
  const fromM = inTray ? stand.from_m : (patch.y + by.yPx - band.top) / band.pixelsPerUnit;
  const move = moveBy(stand, by.days, bed, fromM, today, lengthIn(stand, bed, beds));
  return {
    // Held back at today as the move is, so that the outline lies where the stand will.
    fromDay: patch.fromDay + parseDay(move.sow) - parseDay(stand.sow),
    days: patch.days,
    y: inTray ? patch.y : band.top + move.from_m * band.pixelsPerUnit,
    height: inTray ? patch.height : (move.to_m - move.from_m) * band.pixelsPerUnit,
    move,
  };
}
