// How far the plan reaches, and what of the table lies within it.

import type { Stand, TableWant, TableWeek, Want } from '../api/types';
import { parseDay, type Day } from './days';
import { answersWant } from './supply';

/** A trace at the end of a harvest is no harvest. */
const kLeastG = 1;

/**
 * The first Monday of which nothing is planned for a wish: after the last week in which a stand of it may bring something,
 * and after the last one that the plan names as short of anything. Nothing where there are neither.
 */
export function unplannedFrom(want: Want, stands: Stand[], shortWeeks: string[]): Day | undefined {
  const harvests = stands
    .filter((stand) => answersWant(stand, want))
    .flatMap((stand) =>
      stand.weeks.filter((week) => week.weight_g.p90 >= kLeastG).map((week) => week.week_start),
    );
  const last = [...harvests, ...shortWeeks].reduce((latest, week) => (week > latest ? week : latest), '');
  return last === '' ? undefined : parseDay(last) + 7;
}

/** Rounding of sums over weather years must not make a met week an unmet one. */
const kAllButRounding = 0.999;

/** A week that is met without a plan, out of store or by what stands, is not told as one that has still to be planned. */
export const isPlanned = (week: TableWeek, from: Day | undefined) =>
  from === undefined ||
  parseDay(week.week_start) < from ||
  (week.wanted > 0 && week.reaches.p50 >= kAllButRounding * week.wanted);

/** What is wanted of a wish, and what of it comes, in the weeks that are planned. */
export function plannedSums(row: TableWant, from: Day | undefined): { wanted: number; reaches: number } {
  const weeks = row.weeks.filter((week) => isPlanned(week, from));
  return {
    wanted: weeks.reduce((sum, week) => sum + week.wanted, 0),
    reaches: weeks.reduce((sum, week) => sum + week.mean_reaches, 0),
  };
}

/** Days of a week that are still to come, today among them. */
export const daysLeft = (weekStart: Day, today: Day) =>
  today <= weekStart ? 7 : Math.max(0, weekStart + 7 - today);
