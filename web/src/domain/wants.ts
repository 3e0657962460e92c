// A first set of wishes: amounts for a household, each the year round.

import type { HouseholdAmount, SetupWant } from '../api/types';
import { firstWeight } from './stepper';
import type { UnitSystem } from './units';

/** A wish whose season is the whole year: the plan fills the weeks in which it can come, and says which it cannot. */
const kWholeYear = { from: '01-01', to: '12-31' };

/** Where no published amount is known, the stepper starts at one serving a person a week: a round number to change. */
const kServingsPerPerson = 1;

/** Amounts are proposed in whole tens of grams, or as ounces are told: the average behind them is no finer. */
const kGramStep = 10;

/** A first wish for a crop: what `people` eat of it on average where that is published for one person. */
export function newWant(
  crop: string,
  people: number,
  onePerson?: HouseholdAmount,
  units: UnitSystem = 'metric',
): SetupWant {
  if (onePerson) {
    const eatenG = onePerson.grams_per_week * people;
    const grams = units === 'us' ? firstWeight(eatenG, units) : Math.round(eatenG / kGramStep) * kGramStep;
    return {
      crop,
      amount_per_week: Math.max(units === 'us' ? 0 : kGramStep, grams),
      unit: 'grams',
      ...kWholeYear,
    };
  }
  return { crop, amount_per_week: Math.max(1, people * kServingsPerPerson), unit: 'servings', ...kWholeYear };
}

/** Before the id of a group, where a choice is of crops and groups. */
export const kGroupMark = 'group:';

/** A first wish for what was chosen: a crop, or any of a group, of which no published amount is known. */
export function wishChosen(
  chosen: string,
  people: number,
  onePerson?: HouseholdAmount,
  units: UnitSystem = 'metric',
): SetupWant {
  if (!chosen.startsWith(kGroupMark)) return newWant(chosen, people, onePerson, units);
  const { crop: _, ...wish } = newWant('', people);
  return { group: chosen.slice(kGroupMark.length), ...wish };
}

/** The groups that nobody wishes for yet. */
export const groupsFree = (groups: string[], wants: SetupWant[]): string[] =>
  groups.filter((group) => !wants.some((want) => want.group === group));

/** So many crops make a varied first list that is still quick to go through. */
const kProposedCrops = 12;

/** First wishes for what is eaten most, of crops that are known here and not wished for yet. */
export function proposedWants(
  onePerson: HouseholdAmount[],
  people: number,
  free: (crop: string) => boolean,
  units: UnitSystem = 'metric',
): SetupWant[] {
  return onePerson
    .filter((each) => free(each.crop))
    .slice(0, kProposedCrops)
    .map((each) => newWant(each.crop, people, each, units));
}

/** All amounts for another number of people, by the week and in total, in whole grams or servings and never none. */
export function scaledWants(wants: SetupWant[], from: number, to: number): SetupWant[] {
  if (from <= 0 || from === to) return wants;
  const scaled = (amount: number) => (amount > 0 ? Math.max(1, Math.round((amount * to) / from)) : amount);
  return wants.map((want) => ({
    ...want,
    amount_per_week: scaled(want.amount_per_week),
    ...(want.total !== undefined && { total: scaled(want.total) }),
  }));
}

/** What a device knows of a garden's household. */
export interface Household {
  people: number;
  /** The amounts that it set itself, and for how many; nothing as long as it set none. */
  set: { people: number; amounts: string } | null;
}

/** Two, where nobody has told: chosen. */
const kFirstPeople = 2;

/**
 * Where a device keeps it. A garden tells itself from others by its name alone, and another of that name may come to the
 * same address: so what is known holds only of the very amounts that were set (`setFor`).
 */
export const householdKey = (garden: string): string => `sowtide.household.${garden}`;

/** Reads what was kept on the device; anything unreadable counts as nothing kept. */
export function readHousehold(text: string | null): Household {
  const isCount = (value: unknown): value is number => Number.isInteger(value) && (value as number) >= 1;
  try {
    const { people, set } = JSON.parse(text ?? '') as Partial<Household>;
    if (isCount(people)) {
      const known = isCount(set?.people) && typeof set?.amounts === 'string';
      return { people, set: known ? set : null };
    }
  } catch {
    // Falls through to the first guess.
  }
  return { people: kFirstPeople, set: null };
}

/** What the amounts of a list are known again by. The server adds ids and writes out what was left as usual. */
const amountsOf = (wants: SetupWant[]): string =>
  JSON.stringify(
    wants.map(({ crop = '', group = '', variety = '', amount_per_week, unit, total = 0 }) => [
      crop,
      group,
      variety,
      amount_per_week,
      unit,
      total,
    ]),
  );

/** For how many people this device set these amounts; nothing where it did not, or another changed them since. */
export const setFor = ({ set }: Household, wants: SetupWant[]): number | null =>
  set !== null && wants.length > 0 && set.amounts === amountsOf(wants) ? set.people : null;

/** What a device knows once it has set these amounts, for so many people where that is known. */
export const withAmountsFor = (
  household: Household,
  people: number | null,
  wants: SetupWant[],
): Household => ({
  ...household,
  set: people === null ? null : { people, amounts: amountsOf(wants) },
});

/**
 * How much a missing gram counts against the others, in words. Our judgement: twice is felt, four times comes before
 * nearly all else.
 */
export const kPriorities = { little: 0.5, usual: 1, much: 2, most: 4 };

/** The words of a priority; nothing for one that was set in the garden's text by number. */
export const priorityLevel = (priority: number) =>
  (Object.keys(kPriorities) as (keyof typeof kPriorities)[]).find((each) => kPriorities[each] === priority);
