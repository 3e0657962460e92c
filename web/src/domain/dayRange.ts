// A range of days as a locale spells it.

import { utcDate, type Day } from './days';

const kMonths = 12;

/**
 * Spells "12 Jun – 3 Jul", "3–9 Jul" exactly as `format` does. Its own formatRange takes fifty times as long as a single
 * day, and a season spells hundreds: what stands around the two numbers is asked for once for each pair of months.
 * For formats of day and month, in locales whose numbers are written 0 to 9.
 */
export function rangeSpeller(format: Intl.DateTimeFormat): (from: Day, to: Day) => string {
  const partsByMonths = new Map<number, ReturnType<Intl.DateTimeFormat['formatRangeToParts']>>();
  return (from, to) => {
    const [first, last] = [utcDate(from), utcDate(to)];
    if (from === to) return format.format(first);
    // Two years are told with the range.
    if (first.getUTCFullYear() !== last.getUTCFullYear()) return format.formatRange(first, last);
    const key = first.getUTCMonth() * kMonths + last.getUTCMonth();
    let parts = partsByMonths.get(key);
    if (!parts) partsByMonths.set(key, (parts = format.formatRangeToParts(first, last)));
    const dayOf = (source: string) => String((source === 'startRange' ? first : last).getUTCDate());
    return parts.map(({ type, value, source }) => (type === 'day' ? dayOf(source) : value)).join('');
  };
}
