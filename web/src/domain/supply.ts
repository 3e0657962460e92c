// What the outlook brings each week against what the kitchen wants.

import type { Stand, Want } from '../api/types';
import { isoDay, parseDay, weekStart, type Day } from './days';

const kWeekDays = 7;

export interface WantWeek {
  week: Day;
  /** Asked for in this week, in grams; nothing when the want is in pieces or servings, or out of its season. */
  wantedG: number | null;
  inSeason: boolean;
  p10: number;
  p50: number;
  p90: number;
}

/** True when MM-DD `day` lies in a span that may wrap the new year. */
export function inYearSpan(day: string, from: string, to: string): boolean {
  return from <= to ? from <= day && day <= to : day >= from || day <= to;
}

/** The crops that may meet a wish: its own, or those of its group. */
export const cropsOf = (want: Want): string[] => want.crops ?? [want.crop];

export function answersWant(stand: Stand, want: Want): boolean {
  return cropsOf(want).includes(stand.crop) && (want.variety === '' || stand.variety === want.variety);
}

/** Days of the week from a Monday on that lie in the wish's span, as the server counts them. */
function daysWanted(want: Want, monday: Day): number {
  const days = Array.from({ length: kWeekDays }, (_, i) => isoDay(monday + i).slice(5));
  return days.filter((day) => inYearSpan(day, want.from, want.to)).length;
}

/**
 * Sums the weekly weights of all stands of a want. Medians do not add up exactly: the sum of P50 is a middling
 * week for every stand, and the sums of P10 and P90 are wider than the true range. The page says so.
 */
export function weeksOfWant(want: Want, stands: Stand[], first: Day, weeks: number): WantWeek[] {
  const start = weekStart(first);
  const rows: WantWeek[] = Array.from({ length: weeks }, (_, i) => {
    const week = start + 7 * i;
    const days = daysWanted(want, week);
    const inSeason = days > 0;
    const wantedG = inSeason && want.unit === 'grams' ? (want.amount_per_week * days) / kWeekDays : null;
    return { week, wantedG, inSeason, p10: 0, p50: 0, p90: 0 };
  });
  for (const stand of stands) {
    if (!answersWant(stand, want)) continue;
    for (const week of stand.weeks) {
      const row = rows[(weekStart(parseDay(week.week_start)) - start) / 7];
      if (!row) continue;
      row.p10 += week.weight_g.p10;
      row.p50 += week.weight_g.p50;
      row.p90 += week.weight_g.p90;
    }
  }
  return rows;
}

/** What a move of one stand does to a wish over the weeks ahead. */
export interface Consequence {
  want: Want;
  /** Missing in the middle years, grams; null where the wish is not in grams. */
  missingBeforeG: number | null;
  missingAfterG: number | null;
  /** Weeks with anything to eat, in season. */
  weeksBefore: number;
  weeksAfter: number;
}

const kWeeksAhead = 52;

function sumsOf(want: Want, stands: Stand[], today: Day): { missingG: number | null; weeks: number } {
  const rows = weeksOfWant(want, stands, today, kWeeksAhead);
  const missingG = rows.reduce((sum, row) => sum + Math.max(0, (row.wantedG ?? 0) - row.p50), 0);
  return {
    missingG: want.unit === 'grams' ? missingG : null,
    weeks: rows.filter((row) => row.inSeason && row.p50 >= 1).length,
  };
}

/** The wishes that a moved stand answers, before and after: a pass over their weeks, no new plan. */
export function consequencesOf(
  before: Stand,
  after: Stand,
  stands: Stand[],
  wants: Want[],
  today: Day,
): Consequence[] {
  return wants
    .filter((want) => answersWant(before, want))
    .map((want) => {
      const others = stands.filter((stand) => stand.id !== before.id && answersWant(stand, want));
      const was = sumsOf(want, [...others, before], today);
      const is = sumsOf(want, [...others, after], today);
      return {
        want,
        missingBeforeG: was.missingG,
        missingAfterG: is.missingG,
        weeksBefore: was.weeks,
        weeksAfter: is.weeks,
      };
    });
}
