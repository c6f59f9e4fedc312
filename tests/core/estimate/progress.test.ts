import { expect, test } from 'vitest';
import { type HourSight, nextPhase } from '../../../core/estimate/phase.ts';
import { hourActivity, progressPct } from '../../../core/estimate/progress.ts';
import { stageProfiles } from '../../../shared/profiles/stages.ts';
import type { Phase } from '../../../shared/warning.ts';

test('hourActivity() is 0.972 at 40 °C and 60 % moisture, and nothing without heat of its own', () => {
  // γ(40) = 1 by definition of the set, Haug f(0.60) = 0.9720 (constants from memory).
  expect(hourActivity(40, 0.6, 20)).toBeCloseTo(0.972, 3);
  expect(hourActivity(40, 0.6, 2.5)).toBeCloseTo(0.486, 3);
  expect(hourActivity(40, 0.6, 0)).toBe(0);
  expect(hourActivity(60, 0.6, 40)).toBe(0);
});

test('progressPct() ends at 100', () => {
  expect(progressPct(0, 'bran')).toBe(0);
  expect(progressPct(stageProfiles.bran.neededActivityH / 2, 'bran')).toBe(50);
  expect(progressPct(1e6, 'soil')).toBe(100);
});

const calm: HourSight = { coreC: 22, excessK: 0, rise6K: 0, peakExcessK: 0, nearAirH: 0, workingC: 35 };
const rows: [Phase, Partial<HourSight>, Phase, string][] = [
  // from     what the hour shows                                    to         reason
  ['resting', { excessK: 3.9, rise6K: 2 }, 'resting', 'stays'],
  ['resting', { excessK: 4, rise6K: 0.9 }, 'resting', 'stays'],
  ['resting', { excessK: 4, rise6K: 1 }, 'warming', 'heat-began'],
  ['resting', { coreC: 35 }, 'active', 'reached-working-heat'],
  ['warming', { coreC: 34.9, excessK: 14, peakExcessK: 14 }, 'warming', 'stays'],
  ['warming', { coreC: 35, excessK: 14, peakExcessK: 14 }, 'active', 'reached-working-heat'],
  ['warming', { excessK: 2.9, rise6K: -0.5, peakExcessK: 9.9 }, 'resting', 'heat-faded'],
  ['warming', { excessK: 5.9, rise6K: -0.5, peakExcessK: 10 }, 'cooling', 'fell-from-its-peak'],
  ['warming', { excessK: 6, rise6K: -0.5, peakExcessK: 10 }, 'warming', 'stays'],
  ['active', { excessK: 15, rise6K: -1, peakExcessK: 20 }, 'active', 'stays'],
  ['active', { excessK: 14.9, rise6K: -0.4, peakExcessK: 20 }, 'active', 'stays'],
  ['active', { excessK: 14.9, rise6K: -0.5, peakExcessK: 20 }, 'cooling', 'fell-from-its-peak'],
  ['cooling', { excessK: 5, rise6K: 2.4 }, 'cooling', 'stays'],
  ['cooling', { excessK: 5, rise6K: 2.5 }, 'active', 'reheated'],
  ['cooling', { nearAirH: 5 }, 'cooling', 'stays'],
  ['cooling', { nearAirH: 6 }, 'settled', 'back-near-air'],
  ['settled', { excessK: 7.9, rise6K: 3 }, 'settled', 'stays'],
  ['settled', { excessK: 8, rise6K: 2.5 }, 'active', 'reheated'],
];
for (const [from, sight, to, reason] of rows) {
  test(`nextPhase() from ${from} with ${JSON.stringify(sight)}: ${reason}`, () => {
    const change = nextPhase(from, { ...calm, ...sight });
    expect([change?.phase ?? from, change?.reason ?? 'stays']).toEqual([to, reason]);
  });
}
