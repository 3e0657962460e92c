// What the page proposes to a household is what the command line does (tests/e2e/household.test.mjs).
import { expect, it } from 'vitest';
import { proposedWants } from '../src/domain/wants';
import proposals from './household.json';

for (const units of ['metric', 'us'] as const) {
  it(`proposes what the command line does, in ${units} units`, () => {
    const wants = proposedWants(proposals.amounts, proposals.people, () => true, units);
    expect(wants.map(({ amount_per_week: _, ...rest }) => rest)).toEqual(
      proposals[units].map(({ amount_per_week: _, ...rest }) => rest),
    );
    wants.forEach((want, i) =>
      expect(want.amount_per_week).toBeCloseTo(proposals[units][i]!.amount_per_week, 6),
    );
  });
}
