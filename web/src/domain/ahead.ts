// What this week and the next bring: to the kitchen, against the wishes, and from the sky.

import type { RiskWeek, Stand, TableWant } from '../api/types';
import { parseDay, weekStart, type Day } from './days';

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

function comesIn(week: Day, stands: Stand[]): Comes[] {
  const byCrop = new Map<string, Comes>();
  for (const stand of stands) {
    for (const { week_start, weight_g } of stand.weeks) {
      if (weekStart(parseDay(week_start)) !== week) continue;
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

/** The week that holds the day, and as many after it as asked for. */
export function weeksAhead(stands: Stand[], table: TableWant[], today: Day, weeks: number): WeekAhead[] {
  return Array.from({ length: weeks }, (_, i) => {
    const week = weekStart(today) + 7 * i;
    return { week, comes: comesIn(week, stands), short: shortIn(week, table) };
  });
}

/** The chances of the week of the year that holds the middle of a week. */
export function riskIn(week: Day, risks: RiskWeek[]): RiskWeek | undefined {
  const middle = week + 3;
  return risks.find((each) => parseDay(each.from) <= middle && middle <= parseDay(each.to));
}
