// Amounts are entered with two big buttons, or typed: the step grows with the amount.

import { kGramsPerOunce, kGramsPerPound, kMetresPerFoot, weight, type UnitSystem } from './units';

/** Step for an amount of pieces: 1 up to 20, then 5, 10, 50 … */
export function countStep(value: number): number {
  if (value < 20) return 1;
  if (value < 100) return 5;
  if (value < 500) return 10;
  return 50;
}

/** Step for grams: 10 below 100 g, then 50, 100, 500. */
export function gramStep(value: number): number {
  if (value < 100) return 10;
  if (value < 500) return 50;
  if (value < 2000) return 100;
  return 500;
}

/** A thickness between the fingers, mm: they tell 5 mm apart, or a quarter of an inch. */
export const feltStep = (units: 'metric' | 'us') => () => (units === 'us' ? 25.4 / 4 : 5);

/** Step for a weight on US scales, in grams: an ounce up to a pound, then half pounds, from ten pounds on pounds. */
export function ounceStep(grams: number): number {
  if (grams < kGramsPerPound) return kGramsPerOunce;
  return grams < 10 * kGramsPerPound ? kGramsPerPound / 2 : kGramsPerPound;
}

/** The step of weights on the person's scales. */
export const weightStep = (units: UnitSystem) => (units === 'us' ? ounceStep : gramStep);

/** Where the field of a weight starts: what is proposed, as it is told beside it. */
export function firstWeight(proposedG: number, units: UnitSystem): number {
  const { value, digits } = weight(proposedG, units);
  if (value <= 0) return 0;
  const told = Math.max(1, Math.round(value * 10 ** digits)) / 10 ** digits;
  return tidied((proposedG * told) / value);
}

/** A side of a bed, metres: ten centimetres or half a foot; nearer is not measured in a garden. */
export const bedStepM = (units: UnitSystem) => (units === 'us' ? kMetresPerFoot / 2 : 0.1);

/** From plant to plant, mm: a centimetre or an inch where they stand close, then 5 cm or two inches. */
export const spacingStep = (units: UnitSystem) => (value: number) =>
  units === 'us' ? (value < 12 * 25.4 ? 25.4 : 50.8) : value < 200 ? 10 : 50;

/** Seeds in a packet: nobody counts hundreds one by one. */
export function seedStep(value: number): number {
  if (value < 20) return 1;
  if (value < 100) return 10;
  if (value < 500) return 50;
  return value < 2000 ? 250 : 1000;
}

/** Germination, percent: a test of twenty seeds tells no less than this. */
export const percentStep = () => 5;

/** A warmth, °C: a whole degree of the person's scale. */
export const warmthStep = (units: 'metric' | 'us') => () => (units === 'us' ? 5 / 9 : 1);

/**
 * The next amount up or down. Stepping down uses the step of the amount below, so that up and down undo each
 * other on the grid; never below zero.
 */
export function stepped(value: number, direction: 1 | -1, stepOf: (value: number) => number): number {
  const probe = direction > 0 ? value : Math.max(0, value - 1e-6);
  const step = stepOf(probe);
  const next =
    direction > 0
      ? Math.floor(value / step + 1e-9) * step + step
      : Math.ceil(value / step - 1e-9) * step - step;
  return Math.max(0, tidied(next));
}

/** Far more digits than a garden is measured to, and none of the binary arithmetic: 1.2 and no 1.2000000000000002. */
const kDigits = 12;
export const tidied = (value: number): number => Number(value.toPrecision(kDigits));
