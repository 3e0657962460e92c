import { describe, expect, it } from 'vitest';
import { layCells } from '../src/domain/trayLanes';
import { makeStay } from './helpers';

const inTray = (id: string, first: string, last: string, cells: number) =>
  makeStay(id, first, last, { tray: 'sill', cells }, 'tray');

describe('cells of a tray', () => {
  it('never gives one cell to two stands on one day', () => {
    let state = 11;
    const random = () => (state = (state * 48271) % 2147483647) / 2147483647;
    const stays = Array.from({ length: 60 }, (_, i) => {
      const month = 2 + Math.floor(random() * 4);
      return inTray(
        `t${i}`,
        `2027-0${month}-0${1 + Math.floor(random() * 8)}`,
        `2027-0${month + 1}-1${Math.floor(random() * 9)}`,
        1 + Math.floor(random() * 30),
      );
    });
    const laid = layCells(stays);
    expect(laid).toHaveLength(60);
    for (const a of laid) {
      for (const b of laid) {
        if (a === b || a.stay.last < b.stay.first || b.stay.last < a.stay.first) continue;
        expect(a.toCell <= b.fromCell || b.toCell <= a.fromCell).toBe(true);
      }
    }
  });
  it('uses freed cells again', () => {
    const laid = layCells([
      inTray('a', '2027-02-01', '2027-03-01', 40),
      inTray('b', '2027-03-02', '2027-04-01', 30),
    ]);
    expect(laid.map((cell) => cell.fromCell)).toEqual([0, 0]);
  });
  it('counts clumps where no cells are given', () => {
    expect(layCells([inTray('a', '2027-02-01', '2027-03-01', 0)])[0]!.toCell).toBe(10);
  });
});
