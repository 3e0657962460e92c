// Cells are not numbered in the garden file, so the sheet lays them out itself: first fit, by day of sowing.

import type { Stay } from './season';

export interface CellStretch {
  stay: Stay;
  fromCell: number;
  toCell: number;
}

export function cellsOf(stay: Stay): number {
  const cells = stay.stand.cells ?? 0;
  return cells > 0 ? cells : stay.stand.clumps;
}

/**
 * Gives every stay a stretch of cells that no other takes at the same time, starting each at the lowest free
 * cell. A tray that is over-full runs past its last cell: the caller can see it by `toCell`.
 */
export function layCells(stays: Stay[]): CellStretch[] {
  const laid: CellStretch[] = [];
  const order = [...stays].sort((a, b) => a.first - b.first || a.stand.id.localeCompare(b.stand.id));
  for (const stay of order) {
    const count = cellsOf(stay);
    const meets = laid
      .filter((other) => other.stay.first <= stay.last && stay.first <= other.stay.last)
      .sort((a, b) => a.fromCell - b.fromCell);
    let from = 0;
    for (const other of meets) {
      if (other.fromCell - from >= count) break;
      from = Math.max(from, other.toCell);
    }
    laid.push({ stay, fromCell: from, toCell: from + count });
  }
  return laid;
}
