// How wide a text comes out in the type of the page.

import type { TextWidth } from './label';

const kMostKnown = 4000;

/** Measures texts at a size in the typeface of the page; each text once. */
export function measureAt(sizePx: number): TextWidth {
  const context = document.createElement('canvas').getContext('2d');
  if (context) context.font = `${sizePx}px ${getComputedStyle(document.body).fontFamily}`;
  const known = new Map<string, number>();
  return (text) => {
    let width = known.get(text);
    if (width === undefined) {
      width = context?.measureText(text).width ?? Infinity;
      if (known.size >= kMostKnown) known.clear();
      known.set(text, width);
    }
    return width;
  };
}
