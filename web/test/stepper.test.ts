import { describe, expect, it } from 'vitest';
import {
  bedStepM,
  countStep,
  firstWeight,
  gramStep,
  percentStep,
  seedStep,
  stepped,
  warmthStep,
} from '../src/domain/stepper';

describe('stepper', () => {
  it('undoes a step up by a step down on the grid', () => {
    for (const stepOf of [countStep, gramStep, percentStep, seedStep]) {
      let value = 0;
      for (let i = 0; i < 60; i += 1) {
        const up = stepped(value, 1, stepOf);
        expect(up).toBeGreaterThan(value);
        expect(stepped(up, -1, stepOf)).toBe(value);
        value = up;
      }
    }
  });
  it('goes by whole degrees of the person’s scale', () => {
    expect(stepped(20, 1, warmthStep('metric'))).toBe(21);
    const oneUp = stepped(20, 1, warmthStep('us'));
    expect((oneUp * 9) / 5 + 32).toBeCloseTo(69, 9);
    expect((stepped(oneUp, -1, warmthStep('us')) * 9) / 5 + 32).toBeCloseTo(68, 9);
  });
  it('never goes below nothing', () => {
    expect(stepped(0, -1, countStep)).toBe(0);
    expect(stepped(3, -1, gramStep)).toBe(0);
  });
  it('makes numbers as a tape measure has them', () => {
    let width = 0;
    for (let i = 1; i <= 40; i += 1) {
      width = stepped(width, 1, () => bedStepM('metric'));
      expect(width).toBe(i / 10);
    }
  });
  it('starts a weight at what is told of it', () => {
    expect(firstWeight(3827, 'metric')).toBe(3800);
    expect(firstWeight(937.4, 'metric')).toBe(937);
    expect(firstWeight(12_340, 'metric')).toBe(12_000);
    expect(firstWeight(6.24 * 453.59237, 'us')).toBeCloseTo(6.2 * 453.59237, 9);
    expect(firstWeight(0, 'metric')).toBe(0);
    // Something is never proposed as nothing.
    expect(firstWeight(0.02, 'metric')).toBeCloseTo(0.1, 9);
  });
  it('goes to the grid from an odd amount', () => {
    expect(stepped(1152, 1, countStep)).toBe(1200);
    expect(stepped(1152, -1, countStep)).toBe(1150);
  });
});
