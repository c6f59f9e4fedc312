import { describe, expect, test } from 'vitest';
import { ConfigError } from '../../../shared/errors.ts';
import { chooseClock } from '../../../simulator/cli/clock-option.ts';
import { help } from '../../../simulator/cli/help.ts';
import { readOptions } from '../../../simulator/cli/options.ts';

describe('readOptions()', () => {
  test('readOptions() without arguments runs the farm Saltmere to the broker of this machine', () => {
    expect(readOptions([], {})).toMatchObject({
      command: 'run',
      scenario: 'demo',
      seed: 1,
      mqttUrl: 'mqtt://127.0.0.1:1883',
    });
  });
  test('readOptions() of replay takes columns for probes', () => {
    const options = readOptions(
      ['replay', 'a.csv', '--take', 'T12_C=core.temperature', '--take', 'x=y=air.humidity', '--time', 't'],
      {},
    );
    expect(options).toMatchObject({
      command: 'replay',
      path: 'a.csv',
      timeColumn: 't',
      takes: [
        { column: 'T12_C', probe: 'core', quantity: 'temperature' },
        { column: 'x=y', probe: 'air', quantity: 'humidity' },
      ],
    });
  });
  const wrong: [args: string[], says: RegExp][] = [
    [['--speed', '3601'], /--speed as it must be a number within 1\.\.3600: current value is "3601"/],
    [['--speed', ''], /--speed/],
    [['--seed', '1.5'], /--seed as it must be a whole number/],
    [['--piles', '10001'], /--piles/],
    [['--payload', 'xml'], /--payload as it must be one of object, senml/],
    [['--no-such'], /Cannot understand the command line/],
    [['fly'], /it must be run, replay or schema/],
    [['replay'], /a CSV file must be named/],
    [['replay', 'a.csv'], /at least one --take/],
    [['replay', 'a.csv', '--take', 'T12_C=core.heat'], /COL=PROBE\.QUANTITY/],
    [['replay', 'a.csv', '--take', 'T=c.temperature', '--site', 'Big Farm'], /--site/],
  ];
  for (const [args, says] of wrong) {
    test(`readOptions() refuses ${args.join(' ') || '""'}`, () => {
      expect(() => readOptions(args, {})).toThrow(says);
      expect(() => readOptions(args, {})).toThrow(ConfigError);
    });
  }
  test('help names every option there is', () => {
    const named = new Set([...help.matchAll(/--([a-z]+)/g)].map((match) => match[1]));
    for (const name of named) {
      if (name !== 'help') expect(() => readOptions([`--${name}=`], {})).not.toThrow(/Unknown option/);
    }
    for (const name of [
      'mqtt',
      'username',
      'root',
      'payload',
      'lines',
      'csv',
      'speed',
      'start',
      'clock',
      'history',
      'duration',
      'scenario',
      'seed',
      'sites',
      'piles',
      'step',
      'truth',
      'take',
      'time',
      'site',
      'unit',
    ]) {
      expect(named).toContain(name);
    }
  });
});

describe('chooseClock()', () => {
  const nowMs = Date.UTC(2031, 5, 10);
  const base = { clockText: undefined, speed: 1, start: undefined, durationH: 24 };
  test('chooseClock() at speed 1 begins now, faster it ends now, so no reading is from the future', () => {
    expect(chooseClock(base, nowMs).hourZeroMs).toBe(nowMs);
    expect(chooseClock({ ...base, speed: 600 }, nowMs).hourZeroMs).toBe(nowMs - 24 * 3_600_000);
  });
  test('chooseClock() keeps to the server clock it is given', () => {
    const setting = { startMs: 5_000_000, anchorMs: nowMs, speed: 600 };
    const { clock, hourZeroMs } = chooseClock({ ...base, clockText: JSON.stringify(setting) }, nowMs);
    expect(hourZeroMs).toBe(5_000_000);
    expect(clock.speed).toBe(600);
  });
  test('chooseClock() refuses a clock that is not JSON or lacks a field, and a start that is no time', () => {
    expect(() => chooseClock({ ...base, clockText: 'noon' }, nowMs)).toThrow(/must be JSON/);
    expect(() => chooseClock({ ...base, clockText: '{"startMs":1}' }, nowMs)).toThrow(ConfigError);
    expect(() => chooseClock({ ...base, start: 'soon' }, nowMs)).toThrow(/--start/);
  });
});
