// Keeps the focus where the work is, when what was pressed goes from the page.

import { tick } from 'svelte';

/**
 * After the page was drawn anew: where the focus fell to nothing, it goes to `next`. A page worked by keys follows it; one
 * that was tapped stays where it is.
 */
export async function keepFocus(next: () => HTMLElement | null | undefined): Promise<void> {
  const byKeys = document.activeElement?.matches(':focus-visible') ?? false;
  await tick();
  const { activeElement } = document;
  if (activeElement && activeElement !== document.body) return;
  next()?.focus({ preventScroll: !byKeys });
}
