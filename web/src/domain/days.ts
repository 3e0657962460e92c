// Calendar days as whole numbers, so that arithmetic on them is plain and no time zone can shift them.

/** Days since 1970-01-01, proleptic Gregorian. */
export type Day = number;

const kMillisecondsPerDay = 86_400_000;

/** The day of "YYYY-MM-DD"; NaN when the text is not such a date or the day does not exist. */
export function parseDay(text: string): Day {
  let day = kParsed.get(text);
  if (day === undefined) {
    day = parsedAnew(text);
    // The days of a few years are few; anything else that is asked for must not pile up.
    if (kParsed.size >= kMostParsed) kParsed.clear();
    kParsed.set(text, day);
  }
  return day;
}

/** A season asks for the same few hundred days again and again. */
const kParsed = new Map<string, Day>();
const kMostParsed = 5000;

function parsedAnew(text: string): Day {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!match) return NaN;
  const ms = Date.UTC(Number(match[1]), Number(match[2]) - 1, Number(match[3]));
  const day = ms / kMillisecondsPerDay;
  return isoDay(day) === text ? day : NaN;
}

export function isoDay(day: Day): string {
  return new Date(Math.floor(day) * kMillisecondsPerDay).toISOString().slice(0, 10);
}

/** Whether days are to be told with their year: where not all lie in this one. */
export const needYear = (days: Day[], today: Day): boolean =>
  days.some((day) => utcDate(day).getUTCFullYear() !== utcDate(today).getUTCFullYear());

/** Up to here across the new year nobody takes a day for that of another year: chosen. */
const kClearAcrossYearsDays = 120;

/** Whether a day told without its year could be taken for that of today's year. */
export const isUnclear = (day: Day, today: Day): boolean =>
  Math.abs(day - today) > kClearAcrossYearsDays && needYear([day], today);

/** Midnight UTC of the day, for formatting with `timeZone: 'UTC'`. */
export function utcDate(day: Day): Date {
  return new Date(Math.floor(day) * kMillisecondsPerDay);
}

/** Monday of the ISO week that holds the day (1970-01-01 was a Thursday). */
export function weekStart(day: Day): Day {
  return day - ((((day + 3) % 7) + 7) % 7);
}

/** First day of the month `months` after the one that holds the day. */
export function monthStart(day: Day, months = 0): Day {
  const date = utcDate(day);
  return Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + months, 1) / kMillisecondsPerDay;
}
