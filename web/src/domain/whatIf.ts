// What if there were more of a bed, one more tray, or another amount of a wish: the garden's parts to plan for.

import type { SetupAnswer, TableAnswer, TableWant, WhatIfParts } from '../api/types';

/** One change to the garden that is only tried. */
export type WhatIf =
  | { part: 'beds'; id: string; longerM: number }
  | { part: 'trays'; id: string }
  | { part: 'wants'; id: string; times: number };

/** The parts of the garden that a change makes others of, as the server takes them. */
export function partsOf(
  setup: Pick<SetupAnswer, 'beds' | 'trays' | 'wants'>,
  change: WhatIf | undefined,
): WhatIfParts {
  switch (change?.part) {
    case undefined:
      return {};
    case 'beds':
      return {
        beds: setup.beds.map((bed) =>
          bed.id === change.id ? { ...bed, length_m: bed.length_m + change.longerM } : bed,
        ),
      };
    case 'trays': {
      const like = setup.trays.find((tray) => tray.id === change.id);
      if (!like) return {};
      // Without an id it gets one of its own.
      const { id: _, ...same } = like;
      return { trays: [...setup.trays, { ...same, name: `${like.name} +` }] };
    }
    case 'wants':
      return {
        wants: setup.wants.map((want) =>
          want.id === change.id
            ? {
                ...want,
                amount_per_week: want.amount_per_week * change.times,
                total: (want.total ?? 0) * change.times,
              }
            : want,
        ),
      };
  }
}

/** What reaches the table of a wish over the weeks shown, before and after; in the unit of the wish. */
export interface TableChange {
  want: string;
  unit: TableWant['unit'];
  wanted: number;
  /** As the wish is; another amount where the wish itself is tried. */
  wantedBefore: number;
  before: number;
  after: number;
}

/** Wish by wish, as wanted after. */
export function tableChanges(before: TableAnswer, after: TableAnswer): TableChange[] {
  const was = new Map(before.wants.map((each) => [each.want, each]));
  return after.wants.map(({ want, unit, wanted, mean_reaches }) => ({
    want,
    unit,
    wanted,
    wantedBefore: was.get(want)?.wanted ?? wanted,
    before: was.get(want)?.mean_reaches ?? 0,
    after: mean_reaches,
  }));
}
