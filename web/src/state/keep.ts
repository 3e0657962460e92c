// Asks for what the bed will want to know while the server is in reach, so that the service worker has it later.

import { getJudgement, getNursery, getPackets, getSite, getStand, getStore, getTable } from '../api/client';

/** More stands than a day's work touches; each is a few kilobytes. */
const kMostStands = 40;
/** A judgement is computed anew with each change of the garden: only of the stands likeliest to be looked at. */
const kMostJudged = 20;

/**
 * Reads the other pages' answers, those of the given stands and, of the ones that stand, whether to pull or wait; one
 * after another, so that nothing else waits for them.
 * Stops at the first failure: then the server is out of reach. Does nothing without a service worker.
 */
export async function keepForLater(standIds: string[], standing: string[]): Promise<void> {
  if (!('serviceWorker' in navigator) || !navigator.serviceWorker.controller) return;
  const stands = [...new Set(standIds)].slice(0, kMostStands).map((id) => () => getStand(id));
  const judged = [...new Set(standing)].slice(0, kMostJudged).map((id) => () => getJudgement(id));
  try {
    for (const ask of [getStore, getTable, ...stands, ...judged, getSite, getPackets, getNursery])
      await ask();
  } catch {
    // What is missing is asked for again with the next change of the garden.
  }
}
