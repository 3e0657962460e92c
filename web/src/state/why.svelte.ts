// Which number is being explained. One sheet for the whole page (parts/WhySheet.svelte) shows it.

import type { FigureAnswer } from '../api/types';

/** Why a number is what it is, in the words of the page. */
export interface Why {
  /** What the number is: "Ready to pick, Beet s2, 12 June". */
  title: string;
  /** The number as shown. */
  value: string;
  /** What went into it. */
  inputs: { name: string; value: string }[];
  /** How it was worked out, one step a line. */
  formula: string[];
  /** Where the method and its figures come from. */
  source: string[];
  /** How sure it is. */
  uncertainty: string;
  /** The number as a share of weather years, 0..1, where it is one: then it is also said in years. */
  share?: number;
  /** A figure of the engine that gives the numbers of the working, and the sources. */
  figure?: {
    name: string;
    inputs: Record<string, string | number>;
    /** The working in the words of the page, one step a line. */
    said: (answer: FigureAnswer) => string[];
  };
}

class WhyState {
  shown = $state.raw<Why | undefined>();

  constructor() {
    // What is explained stands on the page that is left.
    addEventListener('hashchange', () => this.close());
  }

  open(why: Why): void {
    this.shown = why;
  }
  close(): void {
    this.shown = undefined;
  }
}

export const whyState = new WhyState();
