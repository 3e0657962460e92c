// The shade of a patch: the chance of being ready on each day, as a few stops of one gradient.

import { parseDay, type Day } from '../domain/days';
import { presence, type Stay } from '../domain/season';

export interface Stop {
  /** 0 at the left edge of the patch, 1 at its right edge. */
  offset: number;
  /** Chance of being ready to pick, 0..1. */
  ready: number;
  /** Chance of still taking the place, 0..1. */
  present: number;
}

/** How far the drawn line may lie from the true one: less than the eye tells apart in a shade. */
const kTolerance = 0.03;

interface Sample {
  day: Day;
  ready: number;
  present: number;
}

function samplesOf(stay: Stay): Sample[] {
  const firstKnown = parseDay(stay.stand.ready_daily.first);
  const samples: Sample[] = [];
  for (let day = stay.first; day <= stay.last; day += 1) {
    const ready = stay.where === 'bed' ? (stay.stand.ready_daily.probability[day - firstKnown] ?? 0) : 0;
    samples.push({ day, ready, present: presence(stay, day) });
  }
  return samples;
}

/** Keeps the ends and, again and again, the sample farthest from the straight line (Ramer 1972). */
function keepBends(samples: Sample[], from: number, to: number, keep: Set<number>): void {
  const a = samples[from];
  const b = samples[to];
  if (!a || !b || to - from < 2) return;
  let worst = -1;
  let worstError = kTolerance;
  for (let i = from + 1; i < to; i += 1) {
    const sample = samples[i]!;
    const t = (i - from) / (to - from);
    const error = Math.max(
      Math.abs(sample.ready - (a.ready + t * (b.ready - a.ready))),
      Math.abs(sample.present - (a.present + t * (b.present - a.present))),
    );
    if (error > worstError) {
      worstError = error;
      worst = i;
    }
  }
  if (worst < 0) return;
  keep.add(worst);
  keepBends(samples, from, worst, keep);
  keepBends(samples, worst, to, keep);
}

const kStops = new WeakMap<Stay, Stop[]>();

/** The stops of a stay's gradient: never farther than the tolerance from the daily values. Worked out once a stay. */
export function stopsOf(stay: Stay): Stop[] {
  let stops = kStops.get(stay);
  if (!stops) kStops.set(stay, (stops = workedOutStops(stay)));
  return stops;
}

/** The stops as the markup of a gradient. */
export const stopsText = (stay: Stay): string =>
  stopsOf(stay)
    .map(
      ({ offset, ready, present }) =>
        `<stop offset="${offset.toFixed(3)}" stop-color="color-mix(in oklab, var(--ready-low), var(--ready-high) ${Math.round(ready * 100)}%)" stop-opacity="${present.toFixed(2)}"/>`,
    )
    .join('');

function workedOutStops(stay: Stay): Stop[] {
  const samples = samplesOf(stay);
  const lastIndex = samples.length - 1;
  if (lastIndex < 0) return [];
  const keep = new Set<number>([0, lastIndex]);
  keepBends(samples, 0, lastIndex, keep);
  return [...keep]
    .sort((a, b) => a - b)
    .map((i) => ({
      offset: lastIndex === 0 ? 0 : i / lastIndex,
      ready: samples[i]!.ready,
      present: samples[i]!.present,
    }));
}
