// Entries written while the server is out of reach: kept in order, sent later, never lost and never doubled.
//
// Every entry carries an id of its own, and the server takes an id only once; so an entry whose answer got lost
// may be sent again. An entry that is refused (not for want of a network) is set aside with the reason, so that it
// does not hold up those behind it.
//
// Several pages of a device share one outbox. Every change here is of single entries by their ids, and so may be made on
// whatever another page has left there.

import type { GardenEvent } from '../api/types';

export interface Outbox {
  waiting: GardenEvent[];
  /** The crop that was shown for the stand of an entry, by the entry's id: a stand planned anew meanwhile is noticed. */
  crops?: Record<string, string>;
  refused: { event: GardenEvent; problem: Trouble }[];
}

/** What went wrong, as kept: said in words only when it is shown. */
export interface Trouble {
  code: string;
  /** The program's own English words. */
  what: string;
  remedy: string;
  field: string;
}

export const emptyOutbox = (): Outbox => ({ waiting: [], refused: [] });

export function enqueue(outbox: Outbox, event: GardenEvent, crop?: string): Outbox {
  if (outbox.waiting.some((known) => known.id === event.id)) return outbox;
  const crops = crop === undefined ? outbox.crops : { ...outbox.crops, [event.id]: crop };
  return { ...outbox, waiting: [...outbox.waiting, event], ...(crops && { crops }) };
}

/** After the server took these ids. */
export function acknowledge(outbox: Outbox, ids: string[]): Outbox {
  return withoutCrops({ ...outbox, waiting: outbox.waiting.filter((event) => !ids.includes(event.id)) });
}

/** After the server refused one. */
export function setAside(outbox: Outbox, id: string, problem: Trouble): Outbox {
  const event = outbox.waiting.find((known) => known.id === id);
  if (!event) return outbox;
  return withoutCrops({
    ...outbox,
    waiting: outbox.waiting.filter((known) => known.id !== id),
    refused: [...outbox.refused, { event, problem }],
  });
}

/** Forgets the crops of entries that no longer wait. */
function withoutCrops(outbox: Outbox): Outbox {
  if (!outbox.crops) return outbox;
  const left = outbox.waiting.flatMap((event) => {
    const crop = outbox.crops?.[event.id];
    return crop === undefined ? [] : [[event.id, crop] as const];
  });
  return { ...outbox, crops: Object.fromEntries(left) };
}

/** Forgets those that were set aside, of these ids. */
export function forgetRefused(outbox: Outbox, ids: string[]): Outbox {
  return { ...outbox, refused: outbox.refused.filter(({ event }) => !ids.includes(event.id)) };
}

/**
 * What the device has kept together with what it would not keep of this page: each entry once, those kept first. One that
 * either has set aside waits no more.
 */
export function merge(kept: Outbox, unkept: Outbox): Outbox {
  const refused = [
    ...kept.refused,
    ...unkept.refused.filter(({ event }) => !kept.refused.some((known) => known.event.id === event.id)),
  ];
  const all = unkept.waiting.reduce((box, event) => enqueue(box, event, unkept.crops?.[event.id]), {
    ...kept,
    refused,
  });
  return acknowledge(
    all,
    refused.map(({ event }) => event.id),
  );
}

/** Entries set aside by earlier versions of the page carry no code. */
const kNoCode: Trouble = { code: 'usage', what: '', remedy: '', field: '' };

/** Reads what was kept on the device; anything unreadable counts as nothing kept. */
export function readOutbox(text: string | null): Outbox {
  try {
    const value = JSON.parse(text ?? '') as Partial<Outbox>;
    if (Array.isArray(value.waiting) && Array.isArray(value.refused))
      return {
        waiting: value.waiting,
        refused: (value.refused as (Outbox['refused'][number] & { what?: string })[]).map(
          ({ event, problem, what }) => ({ event, problem: problem ?? { ...kNoCode, what: what ?? '' } }),
        ),
        ...(value.crops && { crops: value.crops }),
      };
  } catch {
    // Falls through to an empty outbox.
  }
  return emptyOutbox();
}
