import { expect, test } from 'vitest';
import { detectIntervention, type HourStep, ownFallShare, wasOpened } from '../../../core/estimate/interventions.ts';
import { msPerHour } from '../../../shared/units.ts';
import { play, setupOf, startMs, through } from '../helpers.ts';

const still: HourStep = { coreK: 0, topK: 0, baseK: 0, airK: 0, excessK: 20, moisturePct: null };
const rows: [string, Partial<HourStep>, string | undefined][] = [
  ['a core that falls 3.9 K', { coreK: -3.9 }, undefined],
  ['a core that falls 4 K', { coreK: -4 }, 'turned'],
  ['a core that falls 4 K of 25 K', { coreK: -4, excessK: 25 }, undefined],
  ['a core that falls 4.5 K while the air falls 1 K', { coreK: -4.5, airK: -1 }, undefined],
  ['a core that falls 6 K and grows wetter', { coreK: -6, moisturePct: 6 }, 'watered'],
  ['a moisture probe that rises 4.9 points', { moisturePct: 4.9 }, undefined],
  ['a moisture probe that rises 5 points', { moisturePct: 5 }, 'watered'],
  ['a skin that falls 5 K with the base', { topK: -5, baseK: -1 }, 'watered'],
  ['a skin that falls 5 K alone', { topK: -5 }, undefined],
  ['a skin that falls 8 K as the air falls 2 K', { topK: -8, airK: -2, baseK: -1 }, undefined],
  ['an hour nobody measured', { coreK: null, topK: null, baseK: null }, undefined],
];
for (const [what, step, hand] of rows) {
  test(`detectIntervention() of ${what}: ${hand ?? 'nothing'}`, () => {
    expect(detectIntervention({ ...still, ...step })).toBe(hand);
  });
}

test('ownFallShare() is small for a deep bed in an hour and most of the warmth of a thin one in a day', () => {
  const bed = { depthM: 0.3, cover: 'breathable' } as const;
  expect(ownFallShare(3, bed, 'wheat-bran')).toBeCloseTo(0.053, 3);
  expect(ownFallShare(24, { depthM: 0.1, cover: 'open' }, 'wheat-bran')).toBeGreaterThan(0.9);
});

const openings: [string, number, number, number, boolean][] = [
  // fell, excess, what it may lose by itself
  ['4 K of 12 K in an hour', 4, 12, 0.02, true],
  ['3.9 K of 12 K in an hour', 3.9, 12, 0.02, false],
  ['6.1 K of 20 K that could lose 10 % by itself', 6.1, 20, 0.1, true],
  ['5.9 K of 20 K that could lose 10 % by itself', 5.9, 20, 0.1, false],
];
for (const [what, fellK, excessK, ownShare, opened] of openings) {
  test(`wasOpened() of a fall of ${what}: ${opened}`, () => {
    expect(wasOpened(fellK, excessK, ownShare)).toBe(opened);
  });
}

const turned = through([0, 22], [30, 42], [40, 44], [40.3, 33], [60, 42], [80, 43]);

test('a turn that nobody logged is offered for the journal, for two days', () => {
  const all = play(setupOf(), 80, turned);
  expect(all.last?.detectedInterventions.map(({ kind }) => kind)).toEqual(['turned']);
  expect((all.last?.detectedInterventions[0]?.atMs ?? 0) - startMs).toBeLessThanOrEqual(42 * msPerHour);
  const later = play(setupOf(), 100, turned);
  expect(later.last?.detectedInterventions).toEqual([]);
});

test('a turn that was logged is not offered again', () => {
  const acts = [{ kind: 'turned' as const, atMs: startMs + 40 * msPerHour }];
  expect(play(setupOf('bran', { acts }), 80, turned).last?.detectedInterventions).toEqual([]);
});
