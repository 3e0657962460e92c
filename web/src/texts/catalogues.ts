// The languages there are: each file here whose name is a language (`en.ts`, `de.ts`) is one, and none is named elsewhere.

import type { Texts } from './en';

const files = import.meta.glob<Texts>('./[a-z][a-z].ts', { eager: true, import: 'texts' });

/** By language tag ("en"). */
export const catalogues: Record<string, Texts> = Object.fromEntries(
  Object.entries(files).map(([file, texts]) => [file.slice(2, -3), texts]),
);
