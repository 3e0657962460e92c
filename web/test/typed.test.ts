import { describe, expect, it } from 'vitest';
import { digitsTyped, readAmount, readNumber, readTemperature } from '../src/domain/typed';

const kWeights = { g: 1, kg: 1000 };
const kFeet = { ft: 0.3048, "'": 0.3048, in: 0.0254, '"': 0.0254 };

describe('typed numbers', () => {
  it('takes the comma of German and the point of English', () => {
    expect(readNumber('3,8', ',')).toBe(3.8);
    expect(readNumber('3.8', '.')).toBe(3.8);
    expect(readNumber('47', ',')).toBe(47);
    expect(readNumber(',5', ',')).toBe(0.5);
  });
  it('knows thousands from decimals', () => {
    expect(readNumber('1.500', ',')).toBe(1500);
    expect(readNumber('1,500', '.')).toBe(1500);
    expect(readNumber('1.500,5', ',')).toBe(1500.5);
    expect(readNumber('1 500', ',')).toBe(1500);
    // No thousands are parted so: a mark from another keyboard.
    expect(readNumber('3.8', ',')).toBe(3.8);
    expect(readNumber('3,8', '.')).toBe(3.8);
    expect(readNumber('0.125', ',')).toBe(0.125);
  });
  it('takes nothing else for a number', () => {
    for (const text of ['', 'abc', '-3', '1,2,3', '1.2.3', '.', '3e5'])
      expect(readNumber(text, ','), text).toBeUndefined();
  });
});

describe('typed amounts', () => {
  it('is in the unit shown, or in its own', () => {
    expect(readAmount('3,8', kWeights, 'kg', ',')).toBe(3800);
    expect(readAmount('3,8 kg', kWeights, 'g', ',')).toBe(3800);
    expect(readAmount('850 g', kWeights, 'kg', ',')).toBe(850);
    expect(readAmount(' 47 ', { '': 1 }, '', ',')).toBe(47);
  });
  it('adds feet and inches', () => {
    expect(readAmount('2 ft 6 in', kFeet, 'ft', '.')).toBeCloseTo(0.762, 9);
    expect(readAmount('2\'6"', kFeet, 'ft', '.')).toBeCloseTo(0.762, 9);
    expect(readAmount('2.5', kFeet, 'ft', '.')).toBeCloseTo(0.762, 9);
  });
  it('says nothing of what it does not know', () => {
    for (const text of ['', 'kg', '3 stone', 'about 3 kg', '2 kg 6', '-2 kg'])
      expect(readAmount(text, kWeights, 'kg', '.'), text).toBeUndefined();
  });
});

describe('shown numbers', () => {
  it('shows what was typed, and no more of what was not', () => {
    expect(digitsTyped(3.8, 1)).toBe(1);
    expect(digitsTyped(1.25, 1)).toBe(2);
    expect(digitsTyped((1.2 * 453.59237) / 453.59237, 1)).toBe(1);
    expect(digitsTyped(2.06573, 1)).toBe(1);
    expect(digitsTyped(12, 0)).toBe(0);
  });
});

describe('typed temperatures', () => {
  it('are of the scale typed with them, else of the one shown', () => {
    expect(readTemperature('21', 'c', '.')).toBe(21);
    expect(readTemperature('70 °F', 'c', '.')).toBeCloseTo(21.1, 1);
    expect(readTemperature('70', 'f', '.')).toBeCloseTo(21.1, 1);
    expect(readTemperature('21 C', 'f', '.')).toBe(21);
    expect(readTemperature('warm', 'f', '.')).toBeUndefined();
  });
});
