// Amounts as a person types them: a number in the unit shown, or with a unit of its own behind it.

/** What one of a unit is in the unit that the program keeps, by the unit's name as it is typed. */
export type UnitSizes = Record<string, number>;

/** So many digits after the mark are shown of what was typed: a gram of a kilogram, a millimetre of a metre. */
export const kMostTypedDigits = 3;

/** Far below the last digit shown, far above the error of a unit's conversion. */
const kNearlyExact = 1e-6;

/**
 * Digits after the mark that show a number as it was typed; where even the most do not, as many as it is usually told
 * with.
 */
export function digitsTyped(value: number, usual: number): number {
  for (let digits = usual; digits <= kMostTypedDigits; digits += 1) {
    const scaled = value * 10 ** digits;
    if (Math.abs(scaled - Math.round(scaled)) < kNearlyExact * Math.max(1, Math.abs(scaled))) return digits;
  }
  return usual;
}

/**
 * A number that is nothing or more, with the decimal mark of the person's language; the other mark may part thousands, and
 * where it cannot, it is taken as the decimal mark of whoever types it so.
 */
export function readNumber(text: string, decimalMark: string): number | undefined {
  const typed = text.replace(/[\s\u00a0\u202f’']/g, '');
  if (!/^\d*[.,\d]*$/.test(typed) || !/\d/.test(typed)) return undefined;
  const other = decimalMark === ',' ? '.' : ',';
  const partsThousands = new RegExp(`^[1-9]\\d{0,2}(\\${other}\\d{3})+(\\${decimalMark}\\d*)?$`);
  const whole = partsThousands.test(typed) ? typed.replaceAll(other, '') : typed.replace(other, decimalMark);
  const plain = whole.replace(decimalMark, '.');
  return /^\d*\.?\d*$/.test(plain) ? Number(plain) : undefined;
}

/** A number, and what stands behind it up to the next one. */
const kPart = /(\d[\d.,\s\u00a0\u202f]*|[.,]\d+)([^\d.,]*)/g;

/**
 * The amount of "3,8", "3.8 kg" or "2 ft 6 in"; without a unit it is in the one shown. Nothing where the text is no amount,
 * or of a unit that is not known here.
 */
export function readAmount(
  text: string,
  sizes: UnitSizes,
  shownUnit: string,
  decimalMark: string,
): number | undefined {
  const parts = [...text.matchAll(kPart)];
  if (parts.length === 0 || parts.map(([part]) => part).join('') !== text.trimStart()) return undefined;
  let sum = 0;
  for (const [, digits = '', behind = ''] of parts) {
    const unit = behind.trim().toLowerCase() || (parts.length === 1 ? shownUnit.toLowerCase() : '');
    const size = sizes[unit];
    const value = readNumber(digits, decimalMark);
    if (size === undefined || value === undefined) return undefined;
    sum += value * size;
  }
  return sum;
}

/** A temperature in °C: of the scale that is typed with it, else of the one that is shown. */
export function readTemperature(typed: string, shown: 'c' | 'f', mark: string): number | undefined {
  const value = readAmount(typed, { '': 1, '°c': 1, '°f': 1, c: 1, f: 1 }, '', mark);
  const scale = /[cf]\s*$/i.exec(typed)?.[0].trim().toLowerCase() ?? shown;
  // A whole degree Fahrenheit is finer than any soil is kept to.
  return value === undefined || scale === 'c' ? value : ((Math.round(value) - 32) * 5) / 9;
}
