// What a card of work writes into the log.

import type { GardenEvent, Task } from '../api/types';

/** An entry as a card makes it; its id and its stand come with the logging. */
export type Deed = Pick<GardenEvent, 'kind' | 'count' | 'grams' | 'date' | 'text'>;

/** The text of a picking that took all of its stand. */
export const kAllText = 'all';

/** The text of a picking of leaves alone, of a crop that is grown for its root. */
export const kLeavesText = 'leaves';

/** Says of a picking that nothing is left of the stand; of what is pulled, how many plants those were by the log. */
export function takeAll(deed: Deed, task: Task): void {
  deed.text = kAllText;
  if (task.log_text === kAllText && task.log_count >= 1) deed.count = task.log_count;
}

/** What was taken, as it goes into store at the place that the task says. */
export const storing = (deed: Deed, task: Task): Deed => ({
  kind: 'stored',
  grams: deed.grams ?? 0,
  text: task.log_store ?? '',
  date: deed.date,
});

/** Whether tubers, cloves or slips go into the ground, which are counted as pieces and not as seeds. */
export const isOfPieces = (task: Task): boolean =>
  (task.said?.amount ?? []).some((phrase) => ['plant-places', 'plant-cells'].includes(phrase.key));

/** Whether pieces are planted again should a look show that nothing came. */
export const plantsAgain = (task: Task): boolean =>
  (task.said?.amount ?? []).some((phrase) => phrase.key === 'look-or-plant');

/**
 * The entries of a sowing of which nothing came: that there was nothing, and what follows, sown again or cleared. None for
 * other work, and none while it may well come yet.
 */
export function failedSowing(task: Task, date: string): Deed[] {
  if (task.kind !== 'check-emergence') return [];
  const nothing: Deed = { kind: 'counted', count: 0, date };
  if (task.again_count > 0) return [nothing, { kind: 'sown', count: task.again_count, date }];
  const tooLate = task.said?.amount.some((phrase) => phrase.key === 'look-or-leave') ?? false;
  return tooLate ? [nothing, { kind: 'discarded', date }] : [];
}
