// From the outlook of a stand to the time and room it takes: what the season sheet draws.

import type { EventOutlook, Stand } from '../api/types';
import { parseDay, type Day } from './days';

/** A stay of one stand in one place: a stretch of a bed, or cells of a tray, from one day to another. */
export interface Stay {
  stand: Stand;
  /** "bed" or "tray", and which. */
  where: 'bed' | 'tray';
  place: string;
  first: Day;
  /** The last day it may still be there. */
  last: Day;
  /** The first day it may already be gone: the shape fades from here to `last`. */
  mayLeave: Day;
}

export function eventOf(stand: Stand, name: EventOutlook['name']): EventOutlook | undefined {
  return stand.events.find((event) => event.name === name);
}

/** A day of an event at a quantile; NaN when the event is not expected. */
export function eventDay(stand: Stand, name: EventOutlook['name'], quantile: 'p10' | 'p50' | 'p90'): Day {
  const event = eventOf(stand, name);
  const text = event && event.probability > 0 ? event[quantile] : null;
  return text ? parseDay(text) : NaN;
}

export function raisedInTray(stand: Stand): boolean {
  return stand.tray !== '' && stand.method.startsWith('start');
}

/** Whether it comes into its bed as plants: out of a tray of the garden, or bought. */
const comesAsPlants = (stand: Stand): boolean => stand.method.startsWith('start');

/** Whether it is only planned, and its plants are still to be bought. */
export const toBeBought = (stand: Stand): boolean => stand.state === 'planned' && stand.comes_bought === true;

/** The day on which the garden begins with a stand: its sowing, or the setting out of what is bought. */
export const beginsOn = (stand: Stand): Day =>
  stand.comes_bought ? parseDay(stand.set_out_on ?? stand.set_out ?? '') : sowDay(stand);

function firstKnown(...days: Day[]): Day {
  for (const day of days) if (Number.isFinite(day)) return day;
  return NaN;
}

/** The day of its sowing: that of the log once there is one, till then the plan's. */
export const sowDay = (stand: Stand): Day => parseDay(stand.sown ?? stand.sow);

/** Done with before it ever came into its bed: it takes no room there. */
const endedInTray = (stand: Stand): boolean =>
  stand.state === 'finished' && comesAsPlants(stand) && stand.set_out_on === null;

/** Days a stand needs when nothing is expected of it, as the planner has it (src/stand/stay.hpp): the month after sowing. */
const kDaysWhenNothingComes = 30;

function setOutDay(stand: Stand, quantile: 'p10' | 'p50' | 'p90'): Day {
  return firstKnown(
    parseDay(stand.set_out_on ?? stand.set_out ?? ''),
    eventDay(stand, 'set-out', quantile),
    eventDay(stand, 'set-out', 'p50'),
  );
}

/** True while it is still in its tray, or only planned: then no day before today can be that of setting it out. */
const waitsToGoOut = (stand: Stand): boolean => stand.state !== 'growing' && stand.state !== 'finished';

/** What is over was there to its last day and no longer, whatever was still expected of it. */
function ended(stay: Stay): Stay {
  const over = parseDay(stay.stand.over_on ?? '');
  if (!Number.isFinite(over)) return stay;
  const end = Math.max(stay.first, over);
  return { ...stay, mayLeave: end, last: end };
}

/** Its stay in the tray, if it is raised in one. */
export function trayStay(stand: Stand, today: Day = -Infinity): Stay | null {
  if (!raisedInTray(stand)) return null;
  const first = sowDay(stand);
  // Set out before the plan's day and no sowing logged: when it was in the tray is not known.
  if (parseDay(stand.set_out_on ?? '') < first) return null;
  const earliest = waitsToGoOut(stand) ? today : -Infinity;
  const mayLeave = Math.max(earliest, firstKnown(setOutDay(stand, 'p10'), first + kDaysWhenNothingComes));
  const last = Math.max(mayLeave, firstKnown(setOutDay(stand, 'p90'), mayLeave));
  const stay: Stay = { stand, where: 'tray', place: stand.tray, first, mayLeave, last };
  return stand.set_out_on ? stay : ended(stay);
}

/** Its stay in the bed; nothing when it is never expected to get there. */
export function bedStay(stand: Stand, today: Day = -Infinity): Stay | null {
  if (stand.bed === '' || endedInTray(stand)) return null;
  const expected = comesAsPlants(stand) ? setOutDay(stand, 'p50') : sowDay(stand);
  const first = comesAsPlants(stand) && waitsToGoOut(stand) ? Math.max(today, expected) : expected;
  if (!Number.isFinite(first)) return null;
  const mayLeave = Math.max(
    first,
    firstKnown(eventDay(stand, 'last-pick', 'p10'), first + kDaysWhenNothingComes),
  );
  const last = Math.max(mayLeave, firstKnown(eventDay(stand, 'last-pick', 'p90'), mayLeave));
  return ended({ stand, where: 'bed', place: stand.bed, first, mayLeave, last });
}

/** Chance that the stand is ready to pick on a day, 0 outside what is known. */
export function readyOn(stand: Stand, day: Day): number {
  const first = parseDay(stand.ready_daily.first);
  return stand.ready_daily.probability[day - first] ?? 0;
}

/**
 * Chance that a stay still takes its place on a day: 1 until it may leave, then falling to 0.1 at `last`, the
 * day by which nine years in ten it has gone (straight between; the sheet draws exactly this).
 */
export function presence(stay: Stay, day: Day): number {
  if (day < stay.first || day > stay.last) return 0;
  if (day <= stay.mayLeave || stay.last === stay.mayLeave) return 1;
  return 1 - 0.9 * ((day - stay.mayLeave) / (stay.last - stay.mayLeave));
}

/** The days that hold all stays and today, with a margin, so that the sheet has ends. */
export function seasonSpan(stays: Stay[], today: Day): { first: Day; last: Day } {
  let first = today - 14;
  let last = today + 120;
  for (const stay of stays) {
    first = Math.min(first, stay.first - 7);
    last = Math.max(last, stay.last + 14);
  }
  return { first, last };
}

const kStays = new WeakMap<Stand, { today: Day; stays: Stay[] }>();

/** The stays of a stand, the same objects for the same stand and day: what did not change need not be drawn again. */
export function staysOf(stand: Stand, today: Day): Stay[] {
  const known = kStays.get(stand);
  if (known && Object.is(known.today, today)) return known.stays;
  const stays = [bedStay(stand, today), trayStay(stand, today)].filter((stay): stay is Stay => stay !== null);
  kStays.set(stand, { today, stays });
  return stays;
}
