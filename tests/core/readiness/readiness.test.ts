import { expect, test } from 'vitest';
import { type ReadinessFacts, readinessOf } from '../../../core/readiness/readiness.ts';
import { nobodyJudged } from '../../../core/readiness/smell-and-look.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { msPerHour } from '../../../shared/units.ts';
import { play, setupOf, startMs, through } from '../helpers.ts';

const done: ReadinessFacts = {
  peakC: 46,
  peakExcessK: 25,
  nearAirH: 12,
  sinceLateTurnH: 24,
  riseSinceTurnK: 1,
  heat: null,
  lossC: 60,
  confirmed: false,
  judged: nobodyJudged,
};
const rows: [string, Partial<ReadinessFacts>, string][] = [
  ['no heat came', { peakExcessK: 7.9 }, 'not-yet'],
  ['heat just enough came', { peakExcessK: 8 }, 'smell-and-look'],
  ['near the air for five hours', { nearAirH: 5 }, 'not-yet'],
  ['near the air for six hours', { nearAirH: 6 }, 'smell-and-look'],
  ['never turned since', { sinceLateTurnH: null }, 'turn-and-see'],
  ['turned 23 hours ago', { sinceLateTurnH: 23 }, 'turn-and-see'],
  ['reheated by 3 °C', { riseSinceTurnK: 3 }, 'turn-and-see'],
  ['reheated by 2.9 °C', { riseSinceTurnK: 2.9 }, 'smell-and-look'],
  ['a person confirmed', { confirmed: true }, 'confirmed'],
  ['a person confirmed, but it is hot', { confirmed: true, nearAirH: 0 }, 'not-yet'],
];
for (const [what, change, proposal] of rows) {
  test(`readinessOf() a batch with ${what}: ${proposal}`, () => {
    const { proposal: said, points, next } = readinessOf({ ...done, ...change });
    expect(said).toBe(proposal);
    expect(points.map(({ what: point }) => point)).toEqual([
      'heat-came',
      'back-near-air',
      'turn-brought-no-heat',
      'smell-and-look',
    ]);
    for (const { says } of points) expect(plainEnglish(says)).not.toMatch(/\bready\b|\bsafe\b|saniti/i);
    expect(plainEnglish(next)).not.toMatch(/\bready\b|\bsafe\b|saniti/i);
  });
}

test('whoever turned it within the last day is asked to watch, not to turn it again', () => {
  const nextOf = (sinceLateTurnH: number | null, riseSinceTurnK = 0) =>
    plainEnglish(readinessOf({ ...done, sinceLateTurnH, riseSinceTurnK }).next);
  expect(nextOf(23)).toMatch(/^It was turned: see until a day has passed/);
  expect(nextOf(null)).toMatch(/^Turn it once/);
  expect(nextOf(30, 3)).toMatch(/^Turn it once/);
});

test('a batch that warmed, cooled, was turned and stayed cool waits for a person, and for nobody else', () => {
  const curve = through([0, 22], [36, 44], [100, 42], [150, 24], [240, 21]);
  const acts = [{ kind: 'turned' as const, atMs: startMs + 180 * msPerHour }];
  expect(play(setupOf(), 240, curve).last?.readiness.proposal).toBe('turn-and-see');
  expect(play(setupOf('bran', { acts }), 240, curve).last?.readiness.proposal).toBe('smell-and-look');
  const confirmedAtMs = startMs + 230 * msPerHour;
  expect(play(setupOf('bran', { acts, confirmedAtMs }), 240, curve).last?.readiness.proposal).toBe('confirmed');
});
