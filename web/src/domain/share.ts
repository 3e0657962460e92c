// What was read again and is the same stays the same object, so that only what changed is drawn again.

/** True when two values read from JSON are equal. */
export function sameValue(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) {
    return Array.isArray(b) && a.length === b.length && a.every((each, i) => sameValue(each, b[i]));
  }
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length &&
    keys.every((key) => sameValue(a[key as keyof typeof a], b[key as keyof typeof b]))
  );
}

/** The new list with every item that equals the old one of its id replaced by that old one. */
export function shareItems<T extends { id: string }>(before: T[], after: T[]): T[] {
  const known = new Map(before.map((each) => [each.id, each]));
  return after.map((each) => {
    const old = known.get(each.id);
    return old && sameValue(old, each) ? old : each;
  });
}
