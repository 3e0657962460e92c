import { describe, expect, it } from 'vitest';
import { rangeSpeller } from '../src/domain/dayRange';
import { parseDay, utcDate } from '../src/domain/days';

describe('a range of days', () => {
  const first = parseDay('2027-01-01');

  for (const locale of ['en-GB', 'en-US', 'de-DE', 'de-AT', 'de-CH']) {
    it(`is spelt as ${locale} spells it, whichever was spelt before`, () => {
      const format = new Intl.DateTimeFormat(locale, { timeZone: 'UTC', day: 'numeric', month: 'short' });
      const spell = rangeSpeller(format);
      for (let from = first; from < first + 365; from += 5) {
        for (const days of [0, 1, 2, 6, 13, 30, 61, 200, 400])
          expect(spell(from, from + days)).toBe(format.formatRange(utcDate(from), utcDate(from + days)));
      }
    });
  }
});
