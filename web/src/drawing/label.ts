// Words inside a patch: as much as fits, or nothing.

/** Width of an average letter of the sheet's 12 px type, in CSS pixels. */
const kLetterPx = 6.7;
const kPaddingPx = 8;
const kLeastHeightPx = 13;
const kFewestLetters = 3;

/** The longest of the texts (longest first) that fits, else the last one cut with "…", else nothing. */
export function fitLabel(texts: string[], widthPx: number, heightPx: number): string {
  if (heightPx < kLeastHeightPx) return '';
  const letters = Math.floor((widthPx - kPaddingPx) / kLetterPx);
  const whole = texts.find((text) => text.length <= letters);
  if (whole !== undefined) return whole;
  const last = texts.at(-1) ?? '';
  return letters - 1 >= kFewestLetters ? `${last.slice(0, letters - 1)}…` : '';
}
