import { describe, expect, it } from 'vitest';
import { OutlookReader } from '../src/api/outlookReader';

/** As the program writes it: a stand a line. */
const written = (stands: unknown[]) =>
  `{\n  "garden": "Here",\n  "today": "2027-04-20",\n  "stands": [${stands.map((each) => JSON.stringify(each)).join(',\n')}]\n}`;
const stand = (id: string, note = 'a, "b"]\n[c') => ({ id, note, weeks: [{ p50: 1 }, { p50: 2 }] });

describe('the outlook read again', () => {
  it('is what JSON says it is', () => {
    for (const stands of [[], [stand('a')], [stand('a'), stand('b', '],\n"stands": [')]]) {
      const text = written(stands);
      expect(new OutlookReader().read(text)).toEqual(JSON.parse(text));
    }
  });
  it('keeps the objects of what did not change, and nothing of what did', () => {
    const reader = new OutlookReader();
    const before = reader.read(written([stand('a'), stand('b'), stand('c')])).stands;
    const after = reader.read(written([stand('a'), stand('b', 'sown'), stand('c'), stand('d')])).stands;
    expect(after.map((each) => each.id)).toEqual(['a', 'b', 'c', 'd']);
    expect(after[0]).toBe(before[0]);
    expect(after[1]).toMatchObject({ note: 'sown' });
    expect(after[2]).toBe(before[2]);
  });
  it('reads an answer that is laid out otherwise as a whole', () => {
    const answer = { garden: 'Here', stands: [stand('a'), stand('b')], more: [1] };
    for (const text of [JSON.stringify(answer), JSON.stringify(answer, null, 2)])
      expect(new OutlookReader().read(text)).toEqual(answer);
  });
  it('says no to what is no JSON', () => {
    expect(() => new OutlookReader().read('{"stands": [nothing')).toThrow(SyntaxError);
  });
});
