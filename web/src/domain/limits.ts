// What limits a plan, with the wishes that one reason holds back taken together.

import type { Phrase, PlanAnswer } from '../api/types';

export interface Limits {
  /** By reason, in the order of the notes: ids of the wishes that come short for it. */
  held: { reason: Phrase; wants: string[] }[];
  /** Places of the notes that say something else. */
  others: number[];
}

/**
 * `said` are the notes as phrases. Plans kept by earlier versions lack them, or give reasons that `canSay` does not know:
 * such notes are others.
 */
export function limitsOf(
  notes: readonly string[],
  said: readonly Phrase[][] | undefined,
  canSay: (reason: Phrase) => boolean,
): Limits {
  const limits: Limits = { held: [], others: [] };
  notes.forEach((_, i) => {
    const [short, reason, ...rest] = said?.[i] ?? [];
    const want = short?.values.want_id;
    const isShort = short?.key === 'want-short' && typeof want === 'string';
    if (!isShort || !reason || rest.length > 0 || !canSay(reason)) {
      limits.others.push(i);
      return;
    }
    const same = limits.held.find((group) => JSON.stringify(group.reason) === JSON.stringify(reason));
    if (same) same.wants.push(want);
    else limits.held.push({ reason, wants: [want] });
  });
  return limits;
}

/** A wish of which the plan gives nothing, and why as far as its notes tell. */
export interface UnmetWish {
  want: string;
  reason: Phrase[];
}

/** Less than this share of a wish would be told as 0 %. */
const kLeastShare = 0.005;

/** The wishes that get nothing of the plan, in its order. */
export function unmetWishes({
  wants,
  notes_said: said,
}: Pick<PlanAnswer, 'wants' | 'notes_said'>): UnmetWish[] {
  return wants
    .filter(({ wanted_g, supplied_g }) => wanted_g > 0 && supplied_g < kLeastShare * wanted_g)
    .map(({ want }) => {
      const note = said?.find(([short]) => short?.key === 'want-short' && short.values.want_id === want);
      return { want, reason: note?.slice(1) ?? [] };
    });
}

/** Causes that the program tells in a row, each by its name; one without a name stays as it was told. */
export const causesSaid = (told: string, names: Record<string, string>): string =>
  told
    .split(', ')
    .map((cause) => names[cause] ?? cause)
    .join(', ');
