/**
 * Whether tomorrow's air is worth knowing: simulated piles, whose model the judge does not have, under weather that turns
 * by a known step. The forecast made at the turn is compared with what the pile then did, with foretold air and without.
 */
import { mean } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { expectedBand } from '../../core/expect/expected-band.ts';
import type { PileSetup } from '../../core/profiles/pile-setup.ts';
import { AlarmRegistry } from '../../core/session/alarm-registry.ts';
import { PileSession } from '../../core/session/pile-session.ts';
import { stageLimits } from '../../shared/stage.ts';
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import type { Weather } from '../../simulator/model/air.ts';
import { climateWeather, mildClimate } from '../../simulator/model/climate.ts';
import { createPile } from '../../simulator/model/pile.ts';
import { runPile } from '../../simulator/model/step-pile.ts';

const startMs = Date.UTC(2031, 5, 3, 8);
/** When the weather turns, and so long before it is foretold [h]. */
const turnH = 72;
const days = 6;

/** From the turn on colder, or warmer, within three hours. */
function turning(weather: Weather, byK: number): Weather {
  return (atMs) => {
    const air = weather(atMs);
    const share = Math.min(1, Math.max(0, ((atMs - startMs) / msPerHour - turnH) / 3));
    return { ...air, tempC: air.tempC + byK * share };
  };
}

interface Seen {
  readonly atMs: number;
  readonly coreC: number;
  readonly airC: number;
}

function simulate(depthM: number, weather: Weather): Seen[] {
  const pile = createPile({
    ingredients: [{ material: 'wheat-bran', massKg: 60 }],
    moistureFrac: 0.6,
    doseFrac: 0.01,
    depthM,
    tempC: 20,
    startMs,
    cover: 'breathable',
    shed: 'roof',
  });
  const seen: Seen[] = [];
  for (let atMs = startMs; atMs <= startMs + days * 24 * msPerHour; atMs += 10 * msPerMinute) {
    runPile(pile, weather, atMs);
    const core = pile.layers[Math.floor(pile.layers.length / 2)];
    seen.push({ atMs, coreC: core?.tempC ?? Number.NaN, airC: weather(atMs).tempC });
  }
  return seen;
}

/** Mean error of the forecast made at the turn, over the next 24 h [K]. */
function errorK(seen: readonly Seen[], depthM: number, isForetold: boolean): number {
  const setup: PileSetup = {
    stage: 'bran',
    startedAtMs: startMs,
    limits: stageLimits.bran,
    recipe: { material: 'wheat-bran', depthM, massKg: 60, moistureFrac: 0.6, doseFrac: 0.01, cover: 'breathable' },
    acts: [],
  };
  const turnMs = startMs + turnH * msPerHour;
  let id = 0;
  const session = new PileSession(setup, new AlarmRegistry('pile', [], () => String(++id)));
  const air = seen.map(({ atMs, airC }) => ({ atMs, tempC: airC }));
  const known = air.filter(({ atMs }) => atMs <= turnMs);
  // As a service gives it: hourly, and a little wrong.
  const foretold = air
    .filter(({ atMs }) => atMs > turnMs && (atMs - startMs) % msPerHour === 0)
    .map(({ atMs, tempC }, hour) => ({ atMs, tempC: tempC + Math.sin(hour) }));
  session.band = expectedBand(setup, known, turnMs + 50 * msPerHour, { foretold: isForetold ? foretold : [] });
  for (const { atMs, coreC, airC } of seen) {
    if (atMs > turnMs + 10 * msPerMinute) break;
    session.step({ position: 'air', quantity: 'temperature', value: airC, atMs });
    session.step({ position: 'core', quantity: 'temperature', value: coreC, atMs });
  }
  const { forecast } = session.assessment(turnMs + 10 * msPerMinute);
  if (forecast === null) throw new Error('Nothing was foretold of the pile');
  return mean(
    forecast.p50C.map((tempC, index) => {
      const atMs = forecast.atMs + (index + 1) * msPerHour;
      return Math.abs(tempC - (seen.find((one) => one.atMs === atMs)?.coreC ?? Number.NaN));
    }),
  );
}

describe('a forecast that knows the air of tomorrow', () => {
  const rows = [0.1, 0.2, 0.3].flatMap((depthM) =>
    [-12, 12].flatMap((byK) =>
      [1, 2, 3].map((seed) => {
        const seen = simulate(depthM, turning(climateWeather(mildClimate, seed), byK));
        return { depthM, byK, without: errorK(seen, depthM, false), foretold: errorK(seen, depthM, true) };
      }),
    ),
  );
  const of = (depthM: number, which: 'without' | 'foretold') =>
    mean(rows.filter((row) => row.depthM === depthM).map((row) => row[which]));

  // Measured, mean of six piles each: 4.05 K without and 1.35 K with at 10 cm, 2.78 and 0.58 at 20 cm, 3.77 and 3.67 at 30 cm.
  test.each([0.1, 0.2])(
    'errs by half or less over the next day, in a bed %d m deep whose weather turns by 12 K',
    (depthM) => {
      expect(of(depthM, 'foretold')).toBeLessThan(of(depthM, 'without') / 2);
    },
  );

  test('is no worse in one of 30 cm, whose core hardly feels the air in a day', () => {
    expect(of(0.3, 'foretold')).toBeLessThanOrEqual(of(0.3, 'without'));
  });
});
