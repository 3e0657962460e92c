// Entries written while the server is out of reach: kept in order, sent later, never lost and never doubled.
//
// Every entry carries an id of its own, and the server takes an id only once; so an entry whose answer got lost
// may be sent again. An entry that is refused (not for want of a network) is set aside with the reason, so that it
// does not hold up those behind it.

import type { GardenEvent } from '../api/types';

export interface Outbox {
  waiting: GardenEvent[];
  refused: { event: GardenEvent; what: string }[];
}

export const emptyOutbox = (): Outbox => ({ waiting: [], refused: [] });

export function enqueue(outbox: Outbox, event: GardenEvent): Outbox {
  if (outbox.waiting.some((known) => known.id === event.id)) return outbox;
  return { ...outbox, waiting: [...outbox.waiting, event] };
}

/** After the server took these ids. */
export function acknowledge(outbox: Outbox, ids: string[]): Outbox {
  return { ...outbox, waiting: outbox.waiting.filter((event) => !ids.includes(event.id)) };
}

/** After the server refused one. */
export function setAside(outbox: Outbox, id: string, what: string): Outbox {
  const event = outbox.waiting.find((known) => known.id === id);
  if (!event) return outbox;
  return {
    waiting: outbox.waiting.filter((known) => known.id !== id),
    refused: [...outbox.refused, { event, what }],
  };
}

export function forgetRefused(outbox: Outbox): Outbox {
  return { ...outbox, refused: [] };
}

/** Reads what was kept on the device; anything unreadable counts as nothing kept. */
export function readOutbox(text: string | null): Outbox {
  try {
    const value = JSON.parse(text ?? '') as Partial<Outbox>;
    if (Array.isArray(value.waiting) && Array.isArray(value.refused))
      return { waiting: value.waiting, refused: value.refused };
  } catch {
    // Falls through to an empty outbox.
  }
  return emptyOutbox();
}
