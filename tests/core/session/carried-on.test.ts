import { expect, test } from 'vitest';
import { bedAt } from '../../../core/profiles/bed.ts';
import { carriedOn } from '../../../core/profiles/carried-on.ts';
import type { PileSetup } from '../../../core/profiles/pile-setup.ts';
import { type Cover, covers } from '../../../shared/contracts/domain/batch.ts';
import { msPerHour } from '../../../shared/units.ts';
import { play, setupOf, startMs, through } from '../helpers.ts';

const splitMs = startMs + 72 * msPerHour;
const whole = setupOf('bran', {
  acts: [
    { kind: 'turned', atMs: startMs + 30 * msPerHour },
    { kind: 'watered', atMs: startMs + 31 * msPerHour, amountL: 10 },
    { kind: 'turned', atMs: startMs + 90 * msPerHour },
  ],
});
const part = (change: Partial<PileSetup['recipe']> = {}): PileSetup => ({
  ...whole,
  startedAtMs: splitMs,
  recipe: { ...whole.recipe, massKg: 40, ...change },
  acts: [{ kind: 'covered', atMs: splitMs + msPerHour }],
});

test('carriedOn() starts where the whole was laid, with its acts up to the split, its share of the water, and the part’s own', () => {
  const { startedAtMs, acts, recipe } = carriedOn(whole, part());
  expect(startedAtMs).toBe(startMs);
  expect(recipe).toEqual({ ...whole.recipe, massKg: 40 });
  expect(acts.map(({ kind }) => kind)).toEqual(['turned', 'watered', 'moved', 'covered']);
  expect(acts[1]?.amountL).toBe(4); // 40 of 100 kg
});

for (const was of covers) {
  for (const cover of covers) {
    for (const depthM of [0.2, 0.3, 0.45]) {
      test(`carriedOn() has the part lie ${depthM} m deep, ${cover}, after a whole that lay 0.3 m deep, ${was}`, () => {
        const from = { ...whole, recipe: { ...whole.recipe, cover: was satisfies Cover } };
        const joined = carriedOn(from, { ...part({ depthM, cover }), acts: [] });
        expect(bedAt(joined, splitMs - 1)).toEqual({ cover: was, depthM: 0.3 });
        expect(bedAt(joined, splitMs)).toEqual({ cover, depthM });
      });
    }
  }
}

test('carriedOn() without a mass leaves out how much water was given, not that it was', () => {
  const { massKg, ...bare } = part().recipe;
  expect(massKg).toBe(40);
  expect(carriedOn(whole, { ...part(), recipe: bare }).acts[1]).toEqual({
    kind: 'watered',
    atMs: startMs + 31 * msPerHour,
  });
});

test('a part split off a spent bed is judged on: past its heat, not resting as freshly laid', () => {
  const curve = through([0, 22], [30, 42], [60, 40], [72, 28], [120, 21]);
  const apart = play(carriedOn(setupOf(), { ...part(), acts: [] }), 120, curve);
  expect(['cooling', 'settled']).toContain(apart.last?.phase);
  expect(apart.last?.progressPct).toBeGreaterThan(30);
  expect(apart.raised()).not.toContain('stalling/null');
});
