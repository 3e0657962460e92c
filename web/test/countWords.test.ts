import { describe, expect, it } from 'vitest';
import { de } from '../src/texts/de';
import { en } from '../src/texts/en';

describe('one is told as one', () => {
  it('of seeds, of what stands, of changes', () => {
    expect(en.packets.missing('1', false)).toBe('1 seed missing');
    expect(en.packets.missing('12', false)).toBe('12 seeds missing');
    expect(de.packets.missing('1', false)).toBe('1 Same fehlt');
    expect(de.study.standing('5. Juli', '1')).toBe('5. Juli: 1 steht');
    expect(de.study.standing('5. Juli', '7')).toBe('5. Juli: 7 stehen');
    expect(en.plan.changesCount('1', '1')).toBe('1 change, 1 sowing as before.');
    expect(de.plan.changesCount('2', '1')).toBe('2 Änderungen, 1 Aussaat wie bisher.');
  });
});

describe('what is planted in place of seed', () => {
  it('is told by its name, or as pieces', () => {
    expect(en.packets.buyPieces('32', '3.5 lb', 'potato')).toBe('buy 32 seed potatoes to plant (3.5 lb)');
    expect(de.packets.buyPieces('47', '300 g', 'garlic')).toBe('47 Zehen zum Legen kaufen (300 g)');
    expect(en.packets.buyPieces('1', '30 g', 'sweet-potato')).toBe('buy 1 piece to plant (30 g)');
    expect(en.packets.left('9', true)).toBe('9 pieces left');
  });
});
