import { describe, expect, test } from 'vitest';
import { createRandom } from '../../../simulator/model/random.ts';
import { chips } from '../../../simulator/probes/chip.ts';
import { type Fault, faultSchema } from '../../../simulator/probes/fault.ts';
import { createProbe, measure, type Probe, type ProbeSetup, type Values } from '../../../simulator/probes/probe.ts';
import type { Truth } from '../../../simulator/probes/truth.ts';

const truth: Truth = { tempC: 42, rhPct: 99.5, moisturePct: 26, co2Ppm: 60_000 };
const aside: Truth = { tempC: 18, rhPct: 60, moisturePct: 0, co2Ppm: 420 };

function probeWith(
  faults: (Partial<Fault> & { kind: Fault['kind'] })[] = [],
  chip: ProbeSetup['chip'] = 'damp-air',
  seed = 1,
): Probe {
  const setup: ProbeSetup = {
    name: 'one',
    position: 'core',
    chip,
    everyS: 300,
    also: [],
    faults: faults.map((fault) => faultSchema.parse(fault)),
  };
  return createProbe(setup, createRandom(seed));
}

/** Readings every five minutes over some hours, in a place that does not change. */
function readingsOf(probe: Probe, hours: number, at = truth): (Values | undefined)[] {
  return Array.from({ length: hours * 12 }, (_, i) => measure(probe, at, aside, i * 300_000, i / 12));
}

const temps = (values: (Values | undefined)[]) =>
  values.flatMap((v) => (v?.temperature === undefined ? [] : [v.temperature]));
const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('measure()', () => {
  test('measure() of 200 one-wire chips errs by at most half a degree in nineteen of twenty (data sheet: ±0.5 °C)', () => {
    const errors = Array.from(
      { length: 200 },
      (_, seed) => mean(temps(readingsOf(probeWith([], 'one-wire', seed), 1))) - 42,
    );
    expect(errors.filter((error) => Math.abs(error) <= 0.5).length).toBeGreaterThanOrEqual(190);
    expect(new Set(errors.map((error) => error.toFixed(2))).size).toBeGreaterThan(50);
  });
  test('measure() gives a one-wire chip in sixteenths of a degree', () => {
    for (const tempC of temps(readingsOf(probeWith([], 'one-wire'), 5))) expect((tempC * 16) % 1).toBe(0);
  });
  test.each([
    ['half-degree', (tempC: number) => 2 * tempC],
    ['whole-degree', (tempC: number) => tempC],
    ['whole-fahrenheit', (tempC: number) => 32 + 1.8 * tempC],
  ] as const)('measure() gives a %s chip in its steps', (chip, inSteps) => {
    for (const tempC of temps(readingsOf(probeWith([], chip), 5)))
      expect(inSteps(tempC)).toBeCloseTo(Math.round(inSteps(tempC)), 3);
  });
  test('measure() follows a step with the lag of its sheath: 63 % after one time constant', () => {
    const probe = probeWith([], 'one-wire');
    measure(probe, { ...truth, tempC: 20 }, aside, 0, 0);
    measure(probe, { ...truth, tempC: 40 }, aside, chips['one-wire'].lagS * 1000, 0.1);
    expect(probe.feltC).toBeCloseTo(20 + 20 * (1 - Math.exp(-1)), 6);
  });
  test('measure() of humidity stays saturated in damp bran and creeps up by at most 3 %RH in 60 h, then recovers', () => {
    const probe = probeWith();
    const damp = readingsOf(probe, 100).map((values) => values?.humidity ?? Number.NaN);
    expect(damp[1200 - 1] ?? 0).toBeGreaterThan((damp[6] ?? 0) + 0.2);
    expect(Math.max(...damp)).toBeLessThan(99.5 + 3 + 3 * 0.8 + 1);
    const crept = probe.creptPct;
    for (let i = 0; i < 1200; i += 1)
      measure(probe, { ...truth, rhPct: 50 }, aside, (1200 + i) * 300_000, 100 + i / 12);
    expect(probe.creptPct).toBeLessThan(crept / 10);
  });
  test('measure() with the same seed says the same again', () => {
    expect(readingsOf(probeWith(), 10)).toEqual(readingsOf(probeWith(), 10));
  });
});

describe('faults of a probe', () => {
  test('stuck: the same values again and again, from its hour to its end', () => {
    const values = readingsOf(probeWith([{ kind: 'stuck', fromH: 2, toH: 4 }]), 6);
    expect(new Set(temps(values.slice(24, 48))).size).toBe(1);
    expect(new Set(temps(values.slice(0, 24))).size).toBeGreaterThan(3);
    expect(new Set(temps(values.slice(48))).size).toBeGreaterThan(3);
  });
  test('drifting: walks away by so much a day', () => {
    const values = readingsOf(probeWith([{ kind: 'drifting', fromH: 0, perDayK: 3 }]), 48);
    expect(mean(temps(values.slice(-12))) - mean(temps(values.slice(0, 12)))).toBeCloseTo(3 * (47 / 24), 1);
  });
  test('power-on: 85.0 now and then, never otherwise', () => {
    const share = (faults: { kind: 'power-on'; share: number }[]) =>
      temps(readingsOf(probeWith(faults), 200)).filter((tempC) => tempC === 85).length / 2400;
    expect(share([{ kind: 'power-on', share: 0.1 }])).toBeGreaterThan(0.07);
    expect(share([{ kind: 'power-on', share: 0.1 }])).toBeLessThan(0.13);
    expect(share([])).toBe(0);
  });
  test('unplugged: a one-wire sender says -127, a damp-air sender only its battery', () => {
    expect(temps(readingsOf(probeWith([{ kind: 'unplugged' }], 'one-wire'), 1))).toEqual(Array(12).fill(-127));
    expect(Object.keys(readingsOf(probeWith([{ kind: 'unplugged' }]), 1)[5] ?? {})).toEqual(['battery']);
  });
  test('pulled-out: comes to the temperature and damp of the air', () => {
    const last = readingsOf(probeWith([{ kind: 'pulled-out', fromH: 1 }]), 4).at(-1);
    expect(Math.abs((last?.temperature ?? 99) - 18)).toBeLessThan(0.5);
    expect(last?.humidity ?? 99).toBeLessThan(66);
  });
  test('flat-battery: voltage falls for a day, then silence', () => {
    const values = readingsOf(probeWith([{ kind: 'flat-battery', fromH: 10 }]), 40);
    expect(values[34 * 12 + 1]).toBeUndefined();
    expect((values[33 * 12]?.battery ?? 9) < (values[9 * 12]?.battery ?? 0) - 0.5).toBe(true);
  });
});
