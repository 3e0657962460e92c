import { describe, expect, it } from 'vitest';
import { parseDay } from '../src/domain/days';
import { glanceAt } from '../src/domain/glance';
import { makeStand } from './helpers';

const today = parseDay('2027-04-20');

describe('a glance at the garden', () => {
  it('names what is sown next, soonest first, and no sowing that is past', () => {
    const stands = ['2027-05-03', '2027-04-26', '2027-04-12'].map((sow, i) =>
      makeStand({ id: `s${i}`, sow, state: 'planned' }),
    );
    expect(glanceAt(stands, today).sow.map((entry) => entry.stand.sow)).toEqual(['2027-04-26', '2027-05-03']);
    expect(glanceAt(stands, today).ready).toEqual([]);
  });

  it('tells what is ready apart from what will be', () => {
    const ready = { first: '2027-04-20', probability: [0.9] };
    const unready = { first: '2027-04-20', probability: [0.1] };
    const stands = [
      makeStand({ id: 'a', state: 'growing', ready_daily: ready }),
      makeStand({ id: 'b', state: 'growing', ready_daily: unready }),
      makeStand({ id: 'c', state: 'planned', ready_daily: ready }),
    ];
    const glance = glanceAt(stands, today);
    expect(glance.ready.map((entry) => [entry.stand.id, entry.share])).toEqual([['a', 0.9]]);
    expect(glance.pick.map((entry) => entry.stand.id)).not.toContain('a');
  });

  it('stays a glance however much there is', () => {
    const stands = Array.from({ length: 20 }, (_, i) =>
      makeStand({ id: `s${i}`, state: 'planned', sow: '2027-05-01' }),
    );
    expect(glanceAt(stands, today).sow).toHaveLength(4);
  });
});
