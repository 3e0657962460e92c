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
  it('of servings and pieces', () => {
    expect([en.table.amounts.servings('1'), en.table.amounts.servings('1.5')]).toEqual([
      '1 serving',
      '1.5 servings',
    ]);
    expect([en.table.amounts.pieces('1'), en.table.amounts.pieces('3')]).toEqual(['1 piece', '3 pieces']);
    expect([de.table.amounts.servings('1'), de.table.amounts.pieces('1')]).toEqual(['1 Portion', '1 Stück']);
  });
});

describe('entries that wait', () => {
  it('are told by their number, and that they are on this page alone in a sentence of its own', () => {
    expect(en.waiting(1, false)).toBe('1 entry waits to be sent.');
    expect(en.waiting(2, true)).toBe(
      '2 entries wait to be sent. This browser keeps nothing for the garden: do not close the page before all is sent.',
    );
    expect(de.waiting(1, true)).toBe(
      '1 Eintrag wartet auf das Senden. Dieser Browser bewahrt für den Garten nichts auf: Seite erst schließen, wenn alles gesendet ist.',
    );
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
