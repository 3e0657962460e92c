// Pull or wait: what the rows of the judgement tell.

import type { JudgedStand } from '../api/types';

/** The weeks to wait that are best; nothing where the advice goes by something else, or nothing is there yet. */
export function bestOf(judged: Pick<JudgedStand, 'advice' | 'best_weeks' | 'options'>): number | undefined {
  const isAny = judged.options.some((option) => option.usable_g > 0);
  if (!isAny || judged.advice === 'nothing to judge yet') return undefined;
  return (judged.advice === 'wait') === judged.best_weeks > 0 ? judged.best_weeks : undefined;
}
