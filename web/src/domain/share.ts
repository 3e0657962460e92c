// What was read again and is the same stays the same object, so that only what changed is drawn again.

/** Plain loops: a season's answer holds some hundred thousand numbers, and every entry made compares them. */
function sameList(a: unknown[], b: unknown[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i += 1) {
    if (a[i] !== b[i] && !sameValue(a[i], b[i])) return false;
  }
  return true;
}

function sameFields(a: Record<string, unknown>, b: Record<string, unknown>): boolean {
  let fields = 0;
  for (const key in a) {
    if (!sameValue(a[key], b[key])) return false;
    fields += 1;
  }
  for (const key in b) {
    if (!(key in a)) return false;
    fields -= 1;
  }
  return fields === 0;
}

/** True when two values read from JSON are equal. */
export function sameValue(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) return Array.isArray(b) && sameList(a, b);
  return !Array.isArray(b) && sameFields(a as Record<string, unknown>, b as Record<string, unknown>);
}

/** The new list with every item that equals the old one of its id replaced by that old one. */
export function shareItems<T extends { id: string }>(before: T[], after: T[]): T[] {
  const known = new Map(before.map((each) => [each.id, each]));
  return after.map((each) => {
    const old = known.get(each.id);
    return old && sameValue(old, each) ? old : each;
  });
}
