import { expect, test } from 'vitest';
import { openDevices } from './open-devices.ts';

const said = (readings: readonly { site: string; probe: string; quantity: string; value: number }[]) =>
  readings.map(({ site, probe, quantity, value }) => `${site}/${probe} ${quantity} ${value}`);

const board = {
  name: 'Core temperature',
  state_topic: 'yard/board',
  device_class: 'temperature',
  unit_of_measurement: '°C',
  value_template: '{{ value_json.t }}',
  device: { identifiers: ['board-1'], name: 'Board' },
};
const config = 'homeassistant/sensor/board/core/config';
const introduce = (change: object = {}) => JSON.stringify({ ...board, ...change });

test('a device that introduced itself is one probe with all its quantities, called as people call it', () => {
  const { take, devices } = openDevices();
  take(config, introduce({ name: 'Temperature' }));
  take(
    'homeassistant/sensor/board/co2/config',
    introduce({
      name: 'CO2',
      device_class: 'carbon_dioxide',
      unit_of_measurement: 'ppm',
      value_template: '{{ value_json.c }}',
    }),
  );
  expect(said(take('yard/board', '{"t":41.5,"c":900}'))).toEqual([
    'devices/board-1 temperature 41.5',
    'devices/board-1 co2 900',
  ]);
  expect(devices).toEqual(['devices/board-1: Board (discovery)']);
});

test('a template that does more than point somewhere is refused with its text, once however often it is said', () => {
  const { take, reasons } = openDevices();
  const value_template = '{{ (value_json.t * 1.8 + 32) | float }}';
  take(config, introduce({ value_template }));
  take(config, introduce({ value_template }));
  expect(reasons()).toEqual([
    expect.stringMatching(/^unknown-template: .*temperature of Board .*value_json\.t \* 1\.8 \+ 32/),
  ]);
  expect(take('yard/board', '{"t":41.5}')).toEqual([]);
});

test('a temperature without a unit, or in one that is none, is refused', () => {
  const { take, reasons } = openDevices();
  take(config, introduce({ unit_of_measurement: undefined }));
  take('homeassistant/sensor/board/top/config', introduce({ unit_of_measurement: 'mV' }));
  expect(reasons()).toEqual([expect.stringMatching(/^unknown-unit: .*found "mV"/)]);
});

for (const state_topic of [
  'piles/saltmere-yard/p1/reading',
  'piles-state/saltmere-yard/shed',
  'piles-event/saltmere-yard/shed',
  'piles-command/saltmere-yard/shed/acknowledge',
]) {
  test(`an introduction that points at ${state_topic}, which is ours, is passed over whatever its template`, () => {
    const { take, reasons, devices } = openDevices();
    take(config, introduce({ state_topic }));
    take(config, introduce({ state_topic, value_template: '{{ value_json.t if value_json else None }}' }));
    take('homeassistant/device/branhearth-piles-shed/config', introduce({ components: {} }));
    expect(take(state_topic, '{"t":41.5}').filter(({ probe }) => probe === 'board-1')).toEqual([]);
    expect([reasons().filter((one) => one.startsWith('unknown-template')), devices]).toEqual([[], []]);
  });
}

test('an introduction that is taken back is heard no more', () => {
  const { take } = openDevices();
  take(config, introduce());
  expect(take('yard/board', '{"t":41.5}')).toHaveLength(1);
  take(config, '');
  expect(take('yard/board', '{"t":42.5}')).toEqual([]);
});

test('an introduction counts for the site of its sender alone', () => {
  const { take } = openDevices();
  take(config, introduce({ unit_of_measurement: '°F' }), { site: 'oak-terrace' });
  expect(take('yard/board', '{"t":41.5}')).toEqual([]);
  expect(said(take('yard/board', '{"t":105.8}', { site: 'oak-terrace' }))).toEqual([
    'oak-terrace/board-1-core temperature 41',
  ]);
});

test('no introduction reads one of our own topics', () => {
  const { take } = openDevices();
  take(config, introduce({ state_topic: 'piles/saltmere-yard/p1/other' }));
  expect(take('piles/saltmere-yard/p1/other', '{"t":41.5}')).toEqual([]);
});

test('a device that says when it expires is offline after that long without a word, and back with the next', () => {
  const { take, time, statuses } = openDevices();
  take(config, introduce({ expire_after: 60 }));
  take('yard/board', '{"t":41.5}');
  time.nowMs += 59_000;
  take('some/other', 'x');
  expect(statuses).toEqual([]);
  time.nowMs += 30_000;
  take('some/other', 'x');
  expect(statuses).toEqual(['devices/board-1-core offline']);
  take('yard/board', '{"t":41.6}');
  expect(statuses).toEqual(['devices/board-1-core offline', 'devices/board-1-core online']);
});

test('of several availability topics all, any or the latest counts, as the device says', () => {
  const availability = [{ topic: 'yard/a' }, { topic: 'yard/b', value_template: '{{ value_json.s }}' }];
  for (const [availability_mode, expected] of [
    ['all', 'offline'],
    ['any', 'online'],
    ['latest', 'online'],
  ] as const) {
    const { take, statuses } = openDevices();
    take(config, introduce({ availability, availability_mode }));
    take('yard/board', '{"t":41.5}');
    take('yard/a', 'offline');
    take('yard/b', '{"s":"online"}');
    expect(statuses.at(-1)).toBe(`devices/board-1-core ${expected}`);
  }
});

test('a board keeps its probe’s name whether it introduced itself or not', () => {
  const state = ['node/sensor/core_temperature/state', '105.8'] as const;
  const esphome = {
    name: 'Core temperature',
    value_template: undefined,
    state_topic: state[0],
    unit_of_measurement: '°F',
  };
  const without = openDevices();
  expect(said(without.take(...state))).toEqual(['devices/node-core temperature 105.8']);
  without.take(config, introduce(esphome));
  expect(said(without.take(...state))).toEqual(['devices/node-core temperature 41']);
  expect(without.reasons()).toEqual([]);
});
