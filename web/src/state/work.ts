// What today's work is called.

import type { Task } from '../api/types';
import { isOfPieces } from '../domain/deeds';
import { kBoughtText } from '../domain/ownStand';
import { preferences } from './preferences.svelte';

/** "Sow", "Plant", "Buy and set out": the kind of a piece of work. */
export function kindWords(task: Task): string {
  const t = preferences.texts.today;
  const planting = isOfPieces(task) && t.pieces.kinds[task.kind];
  if (planting) return planting;
  if (task.log_text === kBoughtText) return t.buy;
  return t.kinds[task.kind] ?? task.kind;
}
