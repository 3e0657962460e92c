import { describe, expect, it } from 'vitest';
import { standingEntries } from '../src/domain/entries';

const entry = (id: string, date: string, target?: string) => ({
  id,
  date,
  kind: target ? 'corrected' : 'noted',
  ...(target ? { target } : {}),
});
const ids = (...of: Parameters<typeof standingEntries>) => standingEntries(...of).map((event) => event.id);

describe('the entries that count', () => {
  it('come newest first, of one day the last written first', () => {
    const sent = [entry('a', '2027-05-02'), entry('b', '2027-05-01'), entry('c', '2027-05-02')];
    expect(ids(sent, [])).toEqual(['c', 'a', 'b']);
  });
  it('hold what waits to be sent once, also when it was sent already', () => {
    const [a, b] = [entry('a', '2027-05-01'), entry('b', '2027-05-02')];
    expect(ids([a], [a, b])).toEqual(['b', 'a']);
  });
  it('leave out what was taken back, sent or not, and have it again when that was a slip', () => {
    const a = entry('a', '2027-05-01');
    const undo = entry('u', '2027-05-03', 'a');
    expect(ids([a, undo], [])).toEqual([]);
    expect(ids([a], [undo])).toEqual([]);
    expect(ids([a, undo], [entry('v', '2027-05-03', 'u')])).toEqual(['a']);
  });
});
