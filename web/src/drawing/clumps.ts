// The stretch of a stand from above, to scale: where each clump sits.

import { rowsAcross } from '../domain/bedLength';
import type { Stand } from '../api/types';

export interface ClumpPlace {
  /** Metres along the bed from the start of the stretch, and across it. */
  alongM: number;
  acrossM: number;
}

export interface ClumpRows {
  /** Clumps side by side in a full row, and rows one behind another. */
  across: number;
  rows: number;
  /** Metres from row to row along the bed: the spacing, or a little less where a last row is not full. */
  apartM: number;
  /** What the rows take of the bed's length, metres: more than the stretch where its stand was set too tight. */
  lengthM: number;
}

type Setting = Pick<Stand, 'clumps' | 'spacing_mm' | 'arrangement' | 'row_spacing_mm' | 'from_m' | 'to_m'>;

/** Half a centimetre is no crowding, but a rounding of the stretch. */
export const kRoundingM = 0.005;

/** Millimetres from row to row, as the program tells it: on the square the spacing. */
export const rowDistanceMm = (stand: Pick<Stand, 'spacing_mm' | 'row_spacing_mm'>) =>
  stand.row_spacing_mm ?? stand.spacing_mm;

/** Metres from clump to clump side by side across the bed: on the square the spacing. */
const acrossSpacingM = (stand: Setting) => rowDistanceMm(stand) / 1000;

/**
 * As the program reckons the length a stand takes: every clump its ground. A last row that is not full needs no row's length
 * of its own then; the rows share the stretch, nearer along the bed and farther apart in the last one.
 */
export function clumpRows(stand: Setting, widthM: number): ClumpRows {
  const spacingM = stand.spacing_mm / 1000;
  const across = Math.max(1, rowsAcross(widthM, rowDistanceMm(stand)));
  const rows = Math.max(1, Math.ceil(stand.clumps / across));
  const stretchM = stand.to_m - stand.from_m;
  const groundM = (stand.clumps / across) * spacingM;
  const shared = stretchM >= groundM - kRoundingM && stretchM < rows * spacingM;
  const apartM = shared ? stretchM / rows : spacingM;
  return { across, rows, apartM, lengthM: rows * apartM };
}

/** Where the clumps of the first rows sit, the last row part full; set offset, every second one half a spacing on. */
export function clumpPlaces(stand: Setting, widthM: number, firstRows = Infinity): ClumpPlace[] {
  const sideM = acrossSpacingM(stand);
  const { across, rows, apartM } = clumpRows(stand, widthM);
  const edgeM = Math.max(0, widthM - across * sideM) / 2;
  /** In spacings: a quarter back in one row, a quarter on in the next. */
  const shift = (row: number) => (stand.arrangement === 'offset' ? (row % 2) / 2 - 0.25 : 0);
  const count = Math.min(stand.clumps, firstRows * across);
  const inLast = stand.clumps - (rows - 1) * across;
  const spreads = apartM < stand.spacing_mm / 1000 && stand.arrangement !== 'offset';
  const sideIn = (row: number) => (spreads && row === rows - 1 ? (across * sideM) / inLast : sideM);
  return Array.from({ length: count }, (_, i) => {
    const row = Math.floor(i / across);
    return {
      alongM: (row + 0.5 + shift(i % across)) * apartM,
      acrossM: edgeM + ((i % across) + 0.5) * sideIn(row),
    };
  });
}

/** More than this many are cut off with a break mark: the picture stays light. */
const kMostClumpsDrawn = 1200;
/** A bed drawn wider than this tells nothing more. */
const kMostAcrossPx = 260;
/** Clumps nearer than this on the screen run into one another. */
const kLeastSpacingPx = 6;
/** Room for the two waved lines of a break. */
const kBreakPx = 14;

export interface ClumpView {
  /** One scale for both directions. */
  pixelsPerMetre: number;
  /** Rows drawn, from the start of the stretch. */
  rows: number;
  /** True when rows are left out: the drawing ends in a break mark. */
  isCut: boolean;
  drawnM: number;
}

/** The whole stretch where its clumps can still be told apart in `roomPx`; else its first rows at a scale where they can. */
export function clumpView(stand: Setting, widthM: number, roomPx: number): ClumpView {
  const { across, rows, apartM: spacingM, lengthM } = clumpRows(stand, widthM);
  const wholeM = Math.max(lengthM, stand.to_m - stand.from_m);
  const whole = Math.min(roomPx / wholeM, kMostAcrossPx / widthM);
  const mostRows = Math.max(1, Math.floor(kMostClumpsDrawn / across));
  if (whole * spacingM >= kLeastSpacingPx && rows <= mostRows)
    return { pixelsPerMetre: whole, rows, isCut: false, drawnM: wholeM };
  const pixelsPerMetre = Math.max(Math.min(whole, kMostAcrossPx / widthM), kLeastSpacingPx / spacingM);
  const fit = Math.floor((roomPx - kBreakPx) / (spacingM * pixelsPerMetre));
  const drawn = Math.max(1, Math.min(rows, mostRows, fit));
  if (drawn === rows && wholeM * pixelsPerMetre <= roomPx)
    return { pixelsPerMetre, rows, isCut: false, drawnM: wholeM };
  return { pixelsPerMetre, rows: drawn, isCut: true, drawnM: drawn * spacingM };
}

/** A waved line down the drawing at x: here something is left out. */
export function breakLine(x: number, heightPx: number): string {
  const kWaves = 6;
  const kSwingPx = 3;
  const points = Array.from({ length: kWaves + 1 }, (_, i) => {
    const swing = i % 2 === 0 ? -kSwingPx : kSwingPx;
    return `${(x + swing).toFixed(1)},${((i * heightPx) / kWaves).toFixed(1)}`;
  });
  return points.join(' ');
}

/** Share of its final middle weight that a plant has on a day, 0..1; 0 before it is up. */
export function shareGrown(fan: { first: number; p50: number[] }, day: number): number {
  const final = Math.max(...fan.p50, 0);
  if (final <= 0 || day < fan.first) return 0;
  return (fan.p50[Math.min(fan.p50.length - 1, Math.floor(day - fan.first))] ?? 0) / final;
}
