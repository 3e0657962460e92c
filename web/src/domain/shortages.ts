// The weeks in which a plan leaves a wish unmet, put together to runs of weeks that follow each other.

import { parseDay, type Day } from './days';

export interface ShortWeek {
  want: string;
  week_start: string;
  grams: number;
  probability: number;
}

export interface ShortRun {
  want: string;
  /** Monday of the first week and Sunday of the last. */
  first: Day;
  last: Day;
  weeks: ShortWeek[];
  /** Sum of the means of its weeks, in grams. */
  grams: number;
  /** Least and greatest share of the years in which a week of it is short, 0..1. */
  least: number;
  most: number;
}

/** Less than this missing is nobody's loss. */
const kLeastGrams = 1;

function runOf(weeks: ShortWeek[]): ShortRun {
  const shares = weeks.map((week) => week.probability);
  const first = parseDay(weeks[0]!.week_start);
  return {
    want: weeks[0]!.want,
    first,
    last: parseDay(weeks.at(-1)!.week_start) + 6,
    weeks,
    grams: weeks.reduce((sum, week) => sum + week.grams, 0),
    least: Math.min(...shares),
    most: Math.max(...shares),
  };
}

/** Runs in the order of the wishes as given, then of time; `rare` counts the weeks short in less than `worth` of the years. */
export function shortRuns(all: ShortWeek[], worth: number): { runs: ShortRun[]; rare: number } {
  const short = all.filter((week) => week.grams >= kLeastGrams);
  const told = short.filter((week) => week.probability >= worth);
  const runs: ShortRun[] = [];
  for (const want of new Set(told.map((week) => week.want))) {
    const weeks = told
      .filter((week) => week.want === want)
      .sort((a, b) => parseDay(a.week_start) - parseDay(b.week_start));
    let open: ShortWeek[] = [];
    for (const week of weeks) {
      const before = open.at(-1);
      if (before && parseDay(week.week_start) - parseDay(before.week_start) > 7) {
        runs.push(runOf(open));
        open = [];
      }
      open.push(week);
    }
    runs.push(runOf(open));
  }
  return { runs, rare: short.length - told.length };
}
