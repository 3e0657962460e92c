// What lies in store: how soon it must be eaten, and the entries that eating or throwing away make.

import type { GardenEvent, Stand, StoreLot } from '../api/types';
import { isoDay, parseDay, type Day } from './days';
import { eventDay, readyOn } from './season';

/** How pressing a lot is: gone past its day, within three days of it, within a fortnight, or later. */
export type Pressing = 'past' | 'now' | 'soon' | 'later';

const kNowDays = 3;
const kSoonDays = 14;

export function pressing(lot: StoreLot, today: Day): Pressing {
  const left = parseDay(lot.eat_by) - today;
  if (left < 0) return 'past';
  if (left <= kNowDays) return 'now';
  return left <= kSoonDays ? 'soon' : 'later';
}

/** Share of its life that a lot has behind it, 0..1; 1 when its life is unknown or over. */
export function ageShare(lot: StoreLot, today: Day): number {
  const stored = parseDay(lot.stored);
  const life = parseDay(lot.eat_by) - stored;
  if (life <= 0) return 1;
  return Math.min(1, Math.max(0, (today - stored) / life));
}

/** The lots with what waits to be sent already taken off, so that the page answers off the network too. */
export function withWaiting(lots: StoreLot[], waiting: GardenEvent[]): StoreLot[] {
  const undone = new Set(waiting.filter((each) => each.kind === 'corrected').map((each) => each.target));
  return lots
    .map((lot) => {
      const taken = waiting
        .filter(
          (each) =>
            (each.kind === 'eaten' || each.kind === 'discarded') &&
            each.target === lot.id &&
            !undone.has(each.id),
        )
        .reduce((sum, each) => sum + (each.grams ?? lot.grams), 0);
      return taken > 0 ? { ...lot, grams: lot.grams - taken } : lot;
    })
    .filter((lot) => lot.grams > 0.5);
}

/** The entry that some of a lot was eaten or thrown away. Nearly all is all: nobody weighs a last leaf. */
export function takenFromLot(
  lot: StoreLot,
  kind: 'eaten' | 'discarded',
  grams: number,
  today: Day,
  id: string,
): GardenEvent {
  return { id, date: isoDay(today), kind, target: lot.id, grams: grams >= lot.grams - 1 ? lot.grams : grams };
}

/** What all lots of a crop weigh, heaviest crop first. */
export function byCrop(lots: StoreLot[]): { crop: string; name: string; grams: number; lots: number }[] {
  const sums = new Map<string, { crop: string; name: string; grams: number; lots: number }>();
  for (const lot of lots) {
    const sum = sums.get(lot.crop) ?? { crop: lot.crop, name: lot.crop_name, grams: 0, lots: 0 };
    sums.set(lot.crop, { ...sum, grams: sum.grams + lot.grams, lots: sum.lots + 1 });
  }
  return [...sums.values()].sort((a, b) => b.grams - a.grams);
}

/** What was taken as the last of a stand may be put by for so long yet: chosen. */
const kLastTakenDays = 14;

/**
 * The stands of which something may be put by: those that are picked already or by the days may be ripe, seen or not, and
 * those whose last was taken these days. What is likeliest ready comes first.
 */
export function storable(stands: Stand[], today: Day): Stand[] {
  const mayBeRipe = (stand: Stand) =>
    Boolean(stand.facts?.first_picked) || eventDay(stand, 'first-pick', 'p10') <= today;
  const lately = (stand: Stand) => today - parseDay(stand.over_on ?? '') <= kLastTakenDays;
  const isStorable = (stand: Stand) =>
    stand.state === 'finished' ? lately(stand) : stand.state !== 'planned' && mayBeRipe(stand);
  return stands.filter(isStorable).toSorted((a, b) => readyOn(b, today) - readyOn(a, today));
}

/** What was picked and not put by within so many days has been eaten: chosen. */
const kFreshDays = 3;

/** Grams of a stand that were picked and are not stored: in all its life, and of these days. */
export function notStored(
  stand: string,
  standing: GardenEvent[],
  today: Day,
): { everG: number; freshG: number } {
  const sum = (kind: string, sinceDays: number) =>
    standing
      .filter((event) => event.stand === stand && event.kind === kind)
      .filter((event) => today - parseDay(event.date) <= sinceDays)
      .reduce((all, event) => all + (event.grams ?? 0), 0);
  const left = (sinceDays: number) => Math.max(0, sum('picked', sinceDays) - sum('stored', sinceDays));
  const everG = left(Infinity);
  return { everG, freshG: Math.min(everG, left(kFreshDays)) };
}
