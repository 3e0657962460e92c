// What limits a plan, with the wishes that one reason holds back taken together.

import type { Phrase } from '../api/types';

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

/** Causes that the program tells in a row, each by its name; one without a name stays as it was told. */
export const causesSaid = (told: string, names: Record<string, string>): string =>
  told
    .split(', ')
    .map((cause) => names[cause] ?? cause)
    .join(', ');
