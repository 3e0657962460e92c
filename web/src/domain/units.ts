// Amounts in the grower's own measure. Internally everything is grams and metres.

export type UnitSystem = 'metric' | 'us';

/** International yard and pound agreement of 1959: exact. */
export const kGramsPerPound = 453.59237;
export const kGramsPerOunce = kGramsPerPound / 16;
export const kMetresPerFoot = 0.3048;
export const kMillimetresPerInch = 25.4;
/** US liquid gallon, 231 cubic inches: exact. NIST Handbook 44, appendix C. */
export const kLitresPerUsGallon = 3.785411784;

/** A number and the unit it is said in. */
export interface Amount {
  value: number;
  unit: 'g' | 'kg' | 'oz' | 'lb' | 'm' | 'cm' | 'mm' | 'ft' | 'in' | 'L' | 'gal';
  /** Digits after the point worth showing. */
  digits: number;
}

/** Keeps about two or three significant digits: an outlook is not known better. */
function digitsFor(value: number, unitDigits: number): number {
  return Math.abs(value) >= 10 ? Math.max(0, unitDigits - 1) : unitDigits;
}

export function weight(grams: number, system: UnitSystem): Amount {
  if (system === 'us') {
    const pounds = grams / kGramsPerPound;
    if (Math.abs(pounds) >= 1) return { value: pounds, unit: 'lb', digits: digitsFor(pounds, 1) };
    const ounces = grams / kGramsPerOunce;
    return { value: ounces, unit: 'oz', digits: Math.abs(ounces) >= 1 || ounces === 0 ? 0 : 1 };
  }
  if (Math.round(Math.abs(grams)) >= 1000)
    return { value: grams / 1000, unit: 'kg', digits: digitsFor(grams / 1000, 1) };
  return { value: grams, unit: 'g', digits: Math.abs(grams) >= 1 || grams === 0 ? 0 : 1 };
}

/** Weights along an axis: with as many digits as tell each mark from the others, three at most. */
export function weightMarks(grams: number[], system: UnitSystem): Amount[] {
  const kMostDigits = 3;
  const amounts = grams.map((each) => weight(each, system));
  for (let least = 0; ; least += 1) {
    const marks = amounts.map((each) => ({ ...each, digits: Math.max(each.digits, least) }));
    const said = new Set(marks.map(({ value, digits, unit }) => `${value.toFixed(digits)} ${unit}`));
    if (said.size === marks.length || least === kMostDigits) return marks;
  }
}

const kInchesPerFoot = 12;
/**
 * Lengths are rounded from their whole millimetres, halves up: two stands' common edge, equal but for the last bits, is
 * then told alike, here as on paper (src/desk/present.cpp).
 */
const wholeMillimetres = (metres: number) => Math.round(metres * 1000);
const wholeInches = (metres: number) => Math.round(wholeMillimetres(metres) / kMillimetresPerInch);

/** A gardener counts inches up to a yard. */
export const inFeet = (metres: number) => wholeInches(metres) >= 3 * kInchesPerFoot;

/**
 * A length along a bed, part by part, to what a tape measure is read to: "2.4 m", "0.66 m", "21 in", "7 ft 10 in". The far
 * end of a stretch decides for both ends.
 */
export function length(metres: number, system: UnitSystem, feet = inFeet(metres)): Amount[] {
  if (system === 'metric')
    return [{ value: Math.round(wholeMillimetres(metres) / 10) / 100, unit: 'm', digits: 2 }];
  const inches = wholeInches(metres);
  if (!feet) return [{ value: inches, unit: 'in', digits: 0 }];
  const parts: Amount[] = [{ value: Math.floor(inches / kInchesPerFoot), unit: 'ft', digits: 0 }];
  const rest = inches % kInchesPerFoot;
  return rest === 0 ? parts : [...parts, { value: rest, unit: 'in', digits: 0 }];
}

/** Of water: to two digits or so. */
export function volume(litres: number, system: UnitSystem): Amount {
  const value = system === 'us' ? litres / kLitresPerUsGallon : litres;
  return { value, unit: system === 'us' ? 'gal' : 'L', digits: digitsFor(value, 1) };
}

/** Of a place above the sea: to the whole metre or foot, as maps give it. */
export function height(metres: number, system: UnitSystem): Amount {
  return system === 'us'
    ? { value: metres / kMetresPerFoot, unit: 'ft', digits: 0 }
    : { value: metres, unit: 'm', digits: 0 };
}

/** Metres of one unit in which heights above the sea are asked for. */
export const metresPerUnit = (system: UnitSystem): number => (system === 'us' ? kMetresPerFoot : 1);

/** What a number with so many digits could not tell from nothing. */
export const isTrace = ({ value, digits }: Amount) => value > 0 && value < 0.5 * 10 ** -digits;

/** Up to 10 cm to the millimetre, above to the centimetre: nobody sets plants closer to the mark. */
export function spacing(millimetres: number, system: UnitSystem): Amount {
  if (system === 'us') return { value: millimetres / kMillimetresPerInch, unit: 'in', digits: 1 };
  const isWhole = millimetres >= 100 || Number.isInteger(millimetres / 10);
  return { value: millimetres / 10, unit: 'cm', digits: isWhole ? 0 : 1 };
}

/** Where to put marks along a bed of this length, in metres: whole metres, or every second foot. */
export function rulerMarks(lengthM: number, system: UnitSystem): { atM: number; label: number }[] {
  const stepM = system === 'us' ? 2 * kMetresPerFoot : 1;
  const perStep = system === 'us' ? 2 : 1;
  const marks: { atM: number; label: number }[] = [];
  for (let i = 0; i * stepM <= lengthM + 1e-9; i += 1) marks.push({ atM: i * stepM, label: i * perStep });
  return marks;
}
