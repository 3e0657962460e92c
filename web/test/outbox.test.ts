import { describe, expect, it } from 'vitest';
import {
  acknowledge,
  emptyOutbox,
  enqueue,
  forgetRefused,
  merge,
  readOutbox,
  setAside,
} from '../src/domain/outbox';

const kNoStand = { code: 'not-found', what: 'no such stand', remedy: '', field: 'stand' };
const event = (id: string) => ({ id, date: '2027-04-20', kind: 'noted' });

describe('entries that wait', () => {
  it('keep their order and are never doubled', () => {
    let box = emptyOutbox();
    for (const id of ['a', 'b', 'a', 'c']) box = enqueue(box, event(id));
    expect(box.waiting.map((each) => each.id)).toEqual(['a', 'b', 'c']);
  });
  it('are gone once taken, and an answer that comes twice changes nothing', () => {
    let box = enqueue(enqueue(emptyOutbox(), event('a')), event('b'));
    box = acknowledge(acknowledge(box, ['a']), ['a']);
    expect(box.waiting.map((each) => each.id)).toEqual(['b']);
  });
  it('make way when refused, with the reason kept', () => {
    let box = setAside(enqueue(enqueue(emptyOutbox(), event('a')), event('b')), 'a', kNoStand);
    expect(box.waiting.map((each) => each.id)).toEqual(['b']);
    expect(box.refused).toEqual([{ event: event('a'), problem: kNoStand }]);
    expect(forgetRefused(box, ['b']).refused).toEqual(box.refused);
    box = forgetRefused(box, ['a']);
    expect(box.refused).toEqual([]);
  });
  it('survive being kept on the device, and rubbish there', () => {
    const box = enqueue(emptyOutbox(), event('a'));
    expect(readOutbox(JSON.stringify(box))).toEqual(box);
    for (const text of [null, '', '{', '[]', '{"waiting":3}'])
      expect(readOutbox(text)).toEqual(emptyOutbox());
  });
  it('still show what was set aside before reasons had codes', () => {
    const old = { waiting: [], refused: [{ event: event('a'), what: 'no such stand' }] };
    expect(readOutbox(JSON.stringify(old)).refused).toMatchObject([
      { event: event('a'), problem: { code: 'usage', what: 'no such stand' } },
    ]);
  });
});

describe('the crop shown for an entry', () => {
  const event = { id: 'a', date: '2027-05-01', kind: 'picked', stand: 's1' };
  it('goes along while the entry waits, over a reload, and no longer', () => {
    const box = enqueue(emptyOutbox(), event, 'beet');
    expect(box.crops).toEqual({ a: 'beet' });
    expect(readOutbox(JSON.stringify(box))).toEqual(box);
    expect(acknowledge(box, ['a']).crops).toEqual({});
    expect(setAside(box, 'a', kNoStand).crops).toEqual({});
    expect(enqueue(box, { ...event, id: 'b' }).crops).toEqual({ a: 'beet' });
  });
});

describe('an outbox of which the device would keep a part only', () => {
  const box = (...ids: string[]) =>
    ids.reduce((now, id) => enqueue(now, event(id), `crop of ${id}`), emptyOutbox());
  it('is what was kept and what was not, each entry once', () => {
    const both = merge(box('a', 'b'), box('b', 'c'));
    expect(both.waiting.map((each) => each.id)).toEqual(['a', 'b', 'c']);
    expect(both.crops).toEqual({ a: 'crop of a', b: 'crop of b', c: 'crop of c' });
    expect(merge(emptyOutbox(), box('a'))).toEqual(box('a'));
    expect(merge(box('a'), emptyOutbox())).toEqual(box('a'));
  });
  it('does not send again what either has set aside, and says it once', () => {
    const aside = setAside(box('a'), 'a', kNoStand);
    for (const both of [merge(box('a', 'b'), aside), merge(aside, box('a', 'b')), merge(aside, aside)]) {
      expect(both.waiting.map((each) => each.id)).not.toContain('a');
      expect(both.refused).toEqual([{ event: event('a'), problem: kNoStand }]);
    }
  });
});
