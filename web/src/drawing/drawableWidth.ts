// The width a drawing gets from its box.

const kLeastPx = 160;

/** A box that is hidden or being laid out is 0 wide; a drawing made for it would have negative sizes. */
export function drawableWidth(boxPx: number | null | undefined): number {
  return Math.max(kLeastPx, boxPx ?? 0);
}
