// What this week and the next bring: to the kitchen, against the wishes, and from the sky.

import type { Quantiles, RiskWeek, Stand, TableWant, Task } from '../api/types';
import { parseDay, weekStart, type Day } from './days';
import { kAllText, kLeavesText } from './deeds';

export interface Comes {
  crop: string;
  cropName: string;
  /** Grams of all stands together, in the middle year and in eight years of ten. */
  p10: number;
  p50: number;
  p90: number;
}

export interface WeekAhead {
  week: Day;
  /** The heaviest first. */
  comes: Comes[];
  /** Wishes of which something is missing in the middle year, by id, the least met first; amounts in the wish's unit. */
  short: { want: string; unit: TableWant['unit']; missing: number }[];
}

/** Less than this is nobody's meal. */
const kLeastG = 1;
/** A wish met but for a twentieth is met. */
const kMetShare = 0.95;

/** What a card tells of a picking: about so much, between a low and a high amount, or all of it. */
function onCard(task: Task): Quantiles {
  const { low_g: low, high_g: high } = task.said?.amount[0]?.values ?? {};
  const middle = task.log_grams;
  return {
    p10: typeof low === 'number' ? low : middle,
    p50: middle,
    p90: typeof high === 'number' ? high : middle,
  };
}

/**
 * What a stand brings in a week. In the week of today a card to pick it is what is told: the outlook of a stand past its
 * time is that it was picked long ago. Of a stand that is picked to its end nothing comes later.
 */
function broughtIn(week: Day, stand: Stand, today: Day, picks: Map<string, Task>): Quantiles[] {
  const pick = picks.get(stand.id);
  if (pick && week === weekStart(today)) return [onCard(pick)];
  if (pick?.log_text === kAllText) return [];
  return stand.weeks
    .filter(({ week_start }) => weekStart(parseDay(week_start)) === week)
    .map(({ weight_g }) => weight_g);
}

/** By stand, the cards to pick it in the week of today. */
const picksThisWeek = (tasks: Task[], today: Day): Map<string, Task> =>
  new Map(
    tasks
      .filter(
        ({ kind, log_text, log_grams, due }) =>
          kind === 'pick' &&
          log_text !== kLeavesText &&
          log_grams > 0 &&
          parseDay(due) < weekStart(today) + 7,
      )
      .map((task) => [task.stand, task]),
  );

function comesIn(week: Day, stands: Stand[], today: Day, picks: Map<string, Task>): Comes[] {
  const byCrop = new Map<string, Comes>();
  for (const stand of stands) {
    for (const weight_g of broughtIn(week, stand, today, picks)) {
      const sum = byCrop.get(stand.crop) ?? {
        crop: stand.crop,
        cropName: stand.crop_name,
        p10: 0,
        p50: 0,
        p90: 0,
      };
      sum.p10 += weight_g.p10;
      sum.p50 += weight_g.p50;
      sum.p90 += weight_g.p90;
      byCrop.set(stand.crop, sum);
    }
  }
  return [...byCrop.values()].filter((each) => each.p50 >= kLeastG).sort((a, b) => b.p50 - a.p50);
}

function shortIn(week: Day, wants: TableWant[]): WeekAhead['short'] {
  return wants
    .flatMap(({ want, unit, weeks }) => {
      const { wanted, reaches } = weeks.find((each) => parseDay(each.week_start) === week) ?? {};
      if (!wanted || !reaches || reaches.p50 >= kMetShare * wanted) return [];
      return [{ want, unit, missing: wanted - reaches.p50, share: 1 - reaches.p50 / wanted }];
    })
    .sort((a, b) => b.share - a.share)
    .map(({ want, unit, missing }) => ({ want, unit, missing }));
}

/** The week that holds the day, and as many after it as asked for; `tasks` are the work of today that is shown beside them. */
export function weeksAhead(
  stands: Stand[],
  table: TableWant[],
  today: Day,
  weeks: number,
  tasks: Task[] = [],
): WeekAhead[] {
  const picks = picksThisWeek(tasks, today);
  return Array.from({ length: weeks }, (_, i) => {
    const week = weekStart(today) + 7 * i;
    return { week, comes: comesIn(week, stands, today, picks), short: shortIn(week, table) };
  });
}

/** The chances of the week of the year that holds the middle of a week. */
export function riskIn(week: Day, risks: RiskWeek[]): RiskWeek | undefined {
  const middle = week + 3;
  return risks.find((each) => parseDay(each.from) <= middle && middle <= parseDay(each.to));
}
