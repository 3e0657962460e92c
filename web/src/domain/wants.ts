// A first set of wishes: amounts for a household, seasons for the hemisphere.

import type { SetupWant } from '../api/types';

/** A wish whose season is the whole year: the plan fills the weeks in which it can come, and says which it cannot. */
const kWholeYear = { from: '01-01', to: '12-31' };

/** One serving a person a week is where the stepper starts: a round number to change, not a consumption figure. */
const kServingsPerPerson = 1;

export function newWant(crop: string, people: number): SetupWant {
  return { crop, amount_per_week: Math.max(1, people * kServingsPerPerson), unit: 'servings', ...kWholeYear };
}

/** All amounts for another number of people, in whole servings and never none. */
export function scaledWants(wants: SetupWant[], from: number, to: number): SetupWant[] {
  if (from <= 0 || from === to) return wants;
  return wants.map((want) => {
    const amount = (want.amount_per_week * to) / from;
    return {
      ...want,
      amount_per_week: want.unit === 'grams' ? Math.round(amount) : Math.max(1, Math.round(amount)),
    };
  });
}
