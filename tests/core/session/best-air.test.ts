/** Which air a pile is judged by, as probes fall silent one by one and the weather is foretold. */
import { expect, test } from 'vitest';
import type { AirAhead } from '../../../core/profiles/air-reading.ts';
import type { JudgeReading, PileSetup } from '../../../core/profiles/pile-setup.ts';
import { AlarmRegistry } from '../../../core/session/alarm-registry.ts';
import { PileSession } from '../../../core/session/pile-session.ts';
import { msPerHour } from '../../../shared/units.ts';
import { setupOf, startMs } from '../helpers.ts';

/** Air beside the pile: 15 °C, 4 K up and down with the day. */
const beside = (atMs: number) => 15 + 4 * Math.sin(((atMs - startMs) / msPerHour / 24) * 2 * Math.PI);
/** A bed that warms to 40 °C over two days. */
const core = (atMs: number) => 15 + 25 * Math.min(1, (atMs - startMs) / (48 * msPerHour));

interface Heard {
  /** Hours for which each speaks; never where it is absent. */
  readonly probeH?: number;
  readonly standbyH?: readonly [number, number];
  readonly airAhead?: AirAhead;
}

/** A neighbour reads 3 K warmer than beside the pile, the other 2 K colder, and the open field is 4 K colder. */
const differK = { standby: [3, -2], field: -4 } as const;
const foretold: AirAhead = {
  source: 'a mast',
  issuedMs: startMs + 60 * msPerHour,
  points: Array.from({ length: 121 }, (_, hour) => ({
    atMs: startMs + hour * msPerHour,
    tempC: beside(startMs + hour * msPerHour) + differK.field,
  })),
};

function* readings({ probeH = 0, standbyH = [0, 0] }: Heard, hours: number): Generator<JudgeReading> {
  for (let step = 0; step < hours * 6; step += 1) {
    const atMs = startMs + (step * msPerHour) / 6;
    const air = { position: 'air', quantity: 'temperature', atMs } as const;
    for (const which of [0, 1] as const)
      if (step < standbyH[which] * 6) yield { ...air, value: beside(atMs) + differK.standby[which], standby: which };
    if (step < probeH * 6) yield { ...air, value: beside(atMs) };
    yield { position: 'core', quantity: 'temperature', value: core(atMs), atMs };
  }
}

interface Hour {
  readonly airC: number | null;
  readonly from: string | null;
}

function judged(heard: Heard, hours: number, change: Partial<PileSetup> = {}) {
  const setup = setupOf('bran', { ...change, ...(heard.airAhead && { airAhead: heard.airAhead }) });
  const session = new PileSession(setup, new AlarmRegistry('pile', [], () => 'alarm'));
  const byHour: Hour[] = [];
  const said: string[] = [];
  for (const reading of readings(heard, hours)) {
    session.step(reading);
    if (reading.position !== 'core' || (reading.atMs - startMs) % msPerHour !== 0) continue;
    const { airC, airStandIn, ...rest } = session.assessment(reading.atMs);
    byHour.push({ airC, from: airStandIn });
    said.push(JSON.stringify(rest));
  }
  const { feltC, dayC } = session.state.air;
  return { byHour, said, state: { ...session.state, air: { feltC, dayC } } };
}

test('a pile with an air probe of its own is judged to the last digit as if no neighbour and no weather were known', () => {
  const alone = judged({ probeH: 96 }, 96);
  const among = judged({ probeH: 96, standbyH: [96, 96], airAhead: foretold }, 96);
  expect(among).toEqual(alone);
});

test('the air goes from the own probe to a neighbour’s, to another’s, to the weather and on without a jump', () => {
  const { byHour } = judged({ probeH: 30, standbyH: [50, 70], airAhead: foretold }, 100);
  const inTurn = byHour.map(({ from }) => from).filter((from, hour, all) => from !== all[hour - 1]);
  expect(inTurn).toEqual([null, 'standby-0', 'standby-1', 'foretold']);
  const truth = judged({ probeH: 100 }, 100).byHour;
  for (const [hour, { airC }] of byHour.entries()) {
    if (airC === null) continue;
    // Each says another air by 2 to 4 K; beside the true one none of that is left, but for the hours of waiting.
    expect(Math.abs(airC - (truth[hour]?.airC ?? Number.NaN)), `hour ${hour}`).toBeLessThan(1.5);
    const before = byHour[hour - 1]?.airC ?? airC;
    expect(Math.abs(airC - before), `from hour ${hour - 1} to ${hour}`).toBeLessThan(1);
  }
});

test('a pile without any air probe is judged by the weather: how warm it is above it, and how hard it works', () => {
  const known = judged({ probeH: 48 }, 48).state.work.done;
  const guessed = judged({}, 48);
  const byWeather = judged({ airAhead: foretold }, 48);
  expect(guessed.byHour.at(-1)).toEqual({ airC: null, from: null });
  expect(byWeather.byHour.at(-1)?.from).toBe('foretold');
  expect(byWeather.byHour.at(-1)?.airC).toBeCloseTo((judged({ probeH: 48 }, 48).byHour.at(-1)?.airC ?? 0) - 4, 1);
  expect(byWeather.state.work.done).toBeGreaterThan(known);
  expect(guessed.state.work.done).not.toBe(byWeather.state.work.done);
});

test('weather that is foretold no further is not gone by any more', () => {
  const short = { ...foretold, points: foretold.points.slice(0, 25) };
  const { byHour } = judged({ airAhead: short }, 48);
  expect(byHour[24]?.from).toBe('foretold');
  expect(byHour.at(-1)).toEqual({ airC: null, from: null });
});
