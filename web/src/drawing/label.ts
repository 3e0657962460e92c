// Words inside a patch: as much as fits, or nothing.

import type { Patch, SheetLayout } from './sheetLayout';
import type { PixelsPerDay } from './timeAxis';

const kPaddingPx = 8;
const kLeastHeightPx = 13;
const kFewestLetters = 3;
/** Names keep to the top of a high patch, where the eye looks for the next one. */
const kLowestMiddlePx = 15;
/** Half a line of the sheet's type, and how far below its middle the letters end (but for a g or a p). */
const kHalfLinePx = 6.5;
const kBaselinePx = 4;
/** What a name leaves free beneath itself for the notches where the patch is high enough. */
export const kNotchRoomPx = 9;

/** How far below the top of a patch in a bed the middle of its name lies. */
export const nameMiddle = (heightPx: number) =>
  Math.min(kLowestMiddlePx, Math.max(kHalfLinePx, (heightPx - kNotchRoomPx) / 2));

/** How far a notch may come up from the lower edge of a patch in a bed before it meets the letters of a name. */
export const clearOfName = (heightPx: number) =>
  heightPx < kLeastHeightPx ? heightPx / 3 : heightPx - nameMiddle(heightPx) - kBaselinePx;

/** The width of a text in the sheet's type, in CSS pixels. */
export type TextWidth = (text: string) => number;

/** The longest of the texts (longest first) that fits, else the last one cut with "…", else nothing. */
export function fitLabel(texts: string[], widthPx: number, heightPx: number, widthOf: TextWidth): string {
  if (heightPx < kLeastHeightPx) return '';
  const room = widthPx - kPaddingPx;
  const whole = texts.find((text) => widthOf(text) <= room);
  if (whole !== undefined) return whole;
  const last = texts.at(-1) ?? '';
  let letters = last.length - 1;
  while (letters >= kFewestLetters && widthOf(`${last.slice(0, letters)}…`) > room) letters -= 1;
  return letters >= kFewestLetters ? `${last.slice(0, letters).trimEnd()}…` : '';
}

/** "Courgette (summer squash)" as "Courgette": the same name with less of it. */
export const shortName = (name: string) => name.replace(/\s*\(.*\)$/, '');

/** A part of the plot, in CSS pixels from its corner. */
export interface Sight {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

export interface PatchWords {
  words: string;
  x: number;
  y: number;
}

/**
 * The day on which another patch begins over this one (a crop may leave later than the next is set out), else its end. A
 * stay in a tray is often shorter than its name, which runs on over cells that are free.
 */
function clearUntil(patch: Patch, inBand: Patch[]): number {
  let until = patch.stay.where === 'tray' ? Infinity : patch.fromDay + patch.days;
  for (const other of inBand) {
    if (other.fromDay <= patch.fromDay || other.fromDay >= until) continue;
    if (other.y < patch.y + patch.height && patch.y < other.y + other.height) until = other.fromDay;
  }
  return until;
}

/**
 * The words of the patches in sight, and of no other: a garden has hundreds. They begin where the patch does, or at
 * `edgePx` (the left edge of what is seen) when it begins before that, and end before the next patch begins.
 */
export function wordsInSight(
  byBand: SheetLayout['byBand'],
  originPx: number,
  pixelsPerDay: PixelsPerDay,
  sight: Sight,
  edgePx: number,
  textsOf: (patch: Patch) => string[],
  widthOf: TextWidth,
): PatchWords[] {
  const list: PatchWords[] = [];
  for (const { band, patches } of byBand) {
    if (band.top > sight.bottom || band.top + band.height < sight.top) continue;
    for (const patch of patches) {
      const from = originPx + patch.fromDay * pixelsPerDay;
      if (from > sight.right || from + patch.days * pixelsPerDay < sight.left) continue;
      const to = originPx + clearUntil(patch, patches) * pixelsPerDay;
      const left = Math.max(from, edgePx);
      // What lies left of the edge altogether has no name there.
      if (left >= from + patch.days * pixelsPerDay) continue;
      const words = fitLabel(textsOf(patch), to - left, patch.height, widthOf);
      if (!words) continue;
      const middle =
        patch.stay.where === 'bed' ? nameMiddle(patch.height) : Math.min(patch.height / 2, kLowestMiddlePx);
      list.push({ words, x: left + 4, y: patch.y + middle });
    }
  }
  return list;
}
