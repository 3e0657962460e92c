// Small notches up from the lower edge of a patch, at the first pick of 1, 5 and 9 years in 10.

import type { Day } from '../domain/days';
import { eventDay } from '../domain/season';
import { clearOfName, kNotchRoomPx } from './label';
import type { Patch } from './sheetLayout';

/** Of the depth of the middle one. */
const kOuterShare = 5 / 9;
const notchesOf = new WeakMap<Patch, string>();

function ownNotches(patch: Patch, origin: Day): string {
  let path = '';
  const deep = Math.min(kNotchRoomPx, clearOfName(patch.height));
  for (const quantile of ['p10', 'p50', 'p90'] as const) {
    const day = eventDay(patch.stay.stand, 'first-pick', quantile);
    // Set out later than it would have been picked, it stands where nothing of it was: no notch hangs in bare ground.
    const across = day - origin + 0.5;
    if (!(across >= patch.fromDay && across <= patch.fromDay + patch.days)) continue;
    const depth = quantile === 'p50' ? deep : deep * kOuterShare;
    path += `M${across} ${(patch.y + patch.height).toFixed(1)}v${(-depth).toFixed(1)}`;
  }
  return path;
}

/**
 * The notches of a band's patches, clear of the names above, in days from `origin` across. One path a band, so that a
 * stand that is dragged has the path of its own band drawn again and no other; a patch's own part is worked out once.
 */
export function notchPath(patches: Patch[], origin: Day): string {
  let path = '';
  for (const patch of patches) {
    if (patch.stay.where !== 'bed') continue;
    let own = notchesOf.get(patch);
    if (own === undefined) notchesOf.set(patch, (own = ownNotches(patch, origin)));
    path += own;
  }
  return path;
}
