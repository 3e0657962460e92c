// How a size is told at the bed.

import type { JudgedStand } from '../api/types';

export type Way = 'eye' | 'felt' | 'weighed';

/** Where the crop has a law of weight and diameter, the width tells the weight as well. */
export function waysToTell({
  options,
}: {
  options: Pick<JudgedStand['options'][number], 'diameter_mm'>[];
}): Way[] {
  return options[0]?.diameter_mm ? ['eye', 'felt', 'weighed'] : ['eye', 'weighed'];
}
