/**
 * Whatever comes in, within what ingest lets through: the judge never throws, never says a number that is none, and goes on
 * the same from a state put away as JSON.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { judgeStateSchema } from '../../../core/estimate/state.ts';
import { expectedBand } from '../../../core/expect/expected-band.ts';
import type { PileSetup } from '../../../core/profiles/pile-setup.ts';
import { sayCondition } from '../../../core/say/condition.ts';
import { assess, type JudgeReading, startJudge, stepJudge } from '../../../core/session/judge.ts';
import type { Act } from '../../../shared/contracts/domain/batch.ts';
import { msPerHour } from '../../../shared/units.ts';
import { inSentences, setupOf, startMs } from '../helpers.ts';

const places = ['core', 'top', 'base', 'edge', 'air'] as const;
const usual = new Array<'temperature'>(12).fill('temperature');
const edges = fc.constantFrom(-40, -0.0625, 0, 49.9375, 50, 50.0625, 85, 125);
const gapsH = fc.oneof(
  { weight: 60, arbitrary: fc.constantFrom(0, 1 / 60, 1 / 6, 1 / 2, 1) },
  { weight: 2, arbitrary: fc.double({ min: 0, max: 8, noNaN: true }) },
  { weight: 1, arbitrary: fc.double({ min: -30, max: 60, noNaN: true }) }, // back in time, and long gaps
);
const step = fc.record({
  gapH: gapsH,
  position: fc.constantFrom('core', 'core', 'core', ...places),
  quantity: fc.constantFrom(...usual, 'humidity', 'moisture', 'co2', 'battery'),
  moveK: fc.oneof(
    { weight: 40, arbitrary: fc.double({ min: -1, max: 1.2, noNaN: true }) },
    { weight: 1, arbitrary: fc.double({ min: -60, max: 60, noNaN: true }) },
  ),
  edge: fc.option(edges, { freq: 60 }),
});

/** A wandering core with everything that can go wrong, and a reading of every other kind now and then. */
const stream = fc.array(step, { minLength: 1, maxLength: 400 }).map((steps): JudgeReading[] => {
  const last = { core: 25, top: 22, base: 22, edge: 20, air: 18 };
  let atMs = startMs;
  return steps.map(({ gapH, position, quantity, moveK, edge }) => {
    atMs = Math.round(atMs + gapH * msPerHour);
    last[position] = edge ?? Math.min(125, Math.max(-40, last[position] + moveK));
    const value = quantity === 'temperature' ? last[position] : Math.min(100, Math.abs(last[position]));
    return { position, quantity, value, atMs };
  });
});

const acts = fc
  .array(
    fc.record({
      hour: fc.double({ min: 0, max: 200, noNaN: true }),
      kind: fc.constantFrom('turned', 'watered', 'spread', 'heaped', 'covered', 'uncovered', 'moved', 'note'),
    }),
    { maxLength: 5 },
  )
  .map((drawn) =>
    drawn
      .map(({ hour, kind }): Act => ({ kind, atMs: Math.round(startMs + hour * msPerHour) }))
      .sort((one, other) => one.atMs - other.atMs),
  );

const setups = fc.record({ stage: fc.constantFrom('bran', 'soil'), acts }).map(({ stage, acts: done }): PileSetup => {
  return setupOf(stage, { acts: done });
});
const bands = new Map(
  (['bran', 'soil'] as const).map((stage) => [
    stage,
    expectedBand(setupOf(stage), [{ atMs: startMs, tempC: 18 }], startMs + 500 * msPerHour, { members: 25 }),
  ]),
);

/** Paths of everything in it that is a number and none: NaN, or without end. */
function noNumbers(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} = ${value}`];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, part]) => noNumbers(part, `${path}.${key}`));
}

const words = (value: unknown): string => JSON.stringify(value);

test.each([-40, 120])(
  'a core that jumps from 25 °C to %s °C within a minute is not foretold to go on so',
  (jumpedC) => {
    const [setup, state] = [setupOf(), startJudge(setupOf())];
    const said = [
      [30, 25],
      [90, 25],
      [91, jumpedC],
      [121, jumpedC],
    ].map(([minute = 0, value = 0]) => {
      const atMs = startMs + minute * 60_000;
      stepJudge(state, setup, bands.get('bran') ?? null, { position: 'core', quantity: 'temperature', value, atMs });
      return assess(state, setup, bands.get('bran') ?? null, atMs + 60_000).forecast;
    });
    const middle = said.at(-1)?.p50C ?? [];
    expect(middle).toHaveLength(24);
    expect(Math.min(...middle)).toBeGreaterThanOrEqual(-40);
    expect(Math.max(...middle)).toBeLessThanOrEqual(120);
  },
);

test('stepJudge() and assess() of any stream never throw and never say a number that is none', () => {
  fc.assert(
    fc.property(stream, setups, fc.boolean(), (readings, setup, known) => {
      const band = known ? (bands.get(setup.stage) ?? null) : null;
      const state = startJudge(setup);
      for (const [index, reading] of readings.entries()) {
        stepJudge(state, setup, band, reading);
        if (index % 40 !== 0 && index !== readings.length - 1) continue;
        const said = assess(state, setup, band, state.hours.atMs + 60_000);
        expect(noNumbers(said)).toEqual([]);
        expect(noNumbers(state)).toEqual([]);
        expect(judgeStateSchema.parse(state)).toEqual(state);
        expect(words(said)).not.toMatch(/NaN|Infinity|undefined/);
        expect(inSentences(sayCondition(said, []), 'F').condition).not.toMatch(/NaN|Infinity|undefined|null/);
        const { forecast, moisture, progressPct } = said;
        expect(
          progressPct >= 0 && progressPct <= 100 && (moisture === null || (moisture.frac >= 0 && moisture.frac <= 1)),
        ).toBe(true);
        forecast?.p50C.forEach((middle, at) => {
          expect((forecast.p10C[at] ?? Number.NaN) <= middle && middle <= (forecast.p90C[at] ?? Number.NaN)).toBe(true);
          // Nothing alive, and no bed of bran, is outside this a day ahead of a probe that a cable still holds.
          expect(middle).toBeGreaterThan(-100);
          expect(middle).toBeLessThan(200);
        });
      }
    }),
    { numRuns: 200 },
  );
});

test('stepJudge() goes on identically from a state put away as JSON, wherever that was', () => {
  fc.assert(
    fc.property(stream, setups, fc.nat(), (readings, setup, cut) => {
      const band = bands.get(setup.stage) ?? null;
      const at = cut % readings.length;
      const whole = startJudge(setup);
      let other = startJudge(setup);
      for (const [index, reading] of readings.entries()) {
        stepJudge(whole, setup, band, reading);
        if (index === at) other = judgeStateSchema.parse(JSON.parse(JSON.stringify(other)));
        stepJudge(other, setup, band, reading);
      }
      const lookMs = whole.hours.atMs + msPerHour;
      expect(words(other)).toBe(words(whole)); // a zero below nought is a zero all the same
      expect(words(assess(other, setup, band, lookMs))).toBe(words(assess(whole, setup, band, lookMs)));
    }),
    { numRuns: 150 },
  );
});

test('stepJudge() takes a reading that comes twice for once', () => {
  fc.assert(
    fc.property(stream, (readings) => {
      const setup = setupOf();
      const inOrder: JudgeReading[] = [];
      let newest = Number.NEGATIVE_INFINITY;
      for (const reading of readings) {
        if (reading.atMs <= newest) continue;
        newest = reading.atMs;
        inOrder.push(reading);
      }
      const once = startJudge(setup);
      const twice = startJudge(setup);
      for (const reading of inOrder) {
        stepJudge(once, setup, null, reading);
        stepJudge(twice, setup, null, reading);
        stepJudge(twice, setup, null, reading);
      }
      expect(twice.hours).toEqual(once.hours);
    }),
    { numRuns: 100 },
  );
});
