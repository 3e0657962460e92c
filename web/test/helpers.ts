import type { Stand } from '../src/api/types';
import { isoDay, parseDay } from '../src/domain/days';
import type { Stay } from '../src/domain/season';

export function makeStand(over: Partial<Stand> = {}): Stand {
  return {
    id: 's1',
    crop: 'beet',
    crop_name: 'Beet',
    variety: '',
    bed: 'long',
    bed_name: 'Long bed',
    from_m: 0,
    to_m: 1,
    clumps: 10,
    plants_per_clump: 1,
    spacing_mm: 100,
    method: 'direct-sow',
    tray: '',
    cells: 0,
    sow: '2027-04-01',
    set_out: null,
    state: 'planned',
    over_on: null,
    comes_bought: false,
    events: [
      { name: 'emerge', p10: '2027-04-10', p50: '2027-04-12', p90: '2027-04-15', probability: 1 },
      { name: 'first-pick', p10: '2027-06-01', p50: '2027-06-08', p90: '2027-06-20', probability: 0.9 },
      { name: 'last-pick', p10: '2027-06-20', p50: '2027-06-30', p90: '2027-07-10', probability: 0.9 },
    ],
    weeks: [],
    ready_daily: { first: '2027-04-10', probability: [] },
    success: 0.9,
    limits: '',
    ...over,
  };
}

export function makeStay(
  id: string,
  first: string,
  last: string,
  over: Partial<Stand> = {},
  where: Stay['where'] = 'bed',
): Stay {
  const stand = makeStand({ id, ...over });
  return {
    stand,
    where,
    place: where === 'bed' ? stand.bed : stand.tray,
    first: parseDay(first),
    mayLeave: parseDay(last),
    last: parseDay(last),
  };
}

export { isoDay, parseDay };
