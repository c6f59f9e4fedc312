import { expect, test } from 'vitest';
import { deviceName } from '../../../ingest/devices/device-name.ts';
import { oneValue } from '../../helpers/one-value.ts';
import { openDevices, startMs } from './open-devices.ts';

const said = (readings: readonly { site: string; probe: string; quantity: string; value: number }[]) =>
  readings.map(({ site, probe, quantity, value }) => `${site}/${probe} ${quantity} ${value}`);

test('a device of somebody with the key of a site is of that site', () => {
  const { take } = openDevices();
  const z = take('zigbee2mqtt/core', '{"temperature":41.5}', { site: 'saltmere-yard' });
  expect(said(z)).toEqual(['saltmere-yard/core temperature 41.5']);
});

test('the same device at two sites is two probes', () => {
  const { take, reasons } = openDevices();
  take('zigbee2mqtt/core', '{"temperature":41.5}', { site: 'one' });
  expect(said(take('zigbee2mqtt/core', '{"temperature":41.5}', { site: 'two' }))).toEqual([
    'two/core temperature 41.5',
  ]);
  expect(reasons()).toEqual([]);
});

test('what a person mapped by hand is read that way alone', () => {
  const mapping = oneValue({
    filter: 'zigbee2mqtt/core',
    pointer: '/temperature',
    quantity: 'temperature',
    unit: 'C',
    scale: 1,
    site: 'saltmere-yard',
    probe: 'mine',
  });
  const { take } = openDevices([mapping]);
  expect(said(take('zigbee2mqtt/core', '{"temperature":41.5,"humidity":80}'))).toEqual([
    'saltmere-yard/mine temperature 41.5',
  ]);
  expect(said(take('zigbee2mqtt/top', '{"temperature":30}'))).toEqual(['devices/top temperature 30']);
});

test('of two devices of one name the second is refused, and says so', () => {
  const { take, reasons } = openDevices();
  take('zigbee2mqtt/core', '{"temperature":41.5}');
  expect(take('core/sensor/temperature/state', '20')).toEqual([]);
  expect(reasons()).toEqual([expect.stringMatching(/^name-taken: .*devices\/core was taken when core sent/)]);
  expect(said(take('zigbee2mqtt/core', '{"temperature":41.6}'))).toEqual(['devices/core temperature 41.6']);
});

test('a device says how it is called once, with its family', () => {
  const { take, devices } = openDevices();
  const payload = (tempC: number) =>
    JSON.stringify({
      time: '2026-11-29T19:59:00Z',
      deviceInfo: { deviceName: 'Pile 3' },
      object: { temperature: tempC },
    });
  take('application/1/device/0102030405060708/event/up', payload(41));
  take('application/1/device/0102030405060708/event/up', payload(42));
  expect(devices).toEqual(['devices/0102030405060708: Pile 3 (chirpstack)']);
});

test('availability that was said before the first reading is said of the probe then', () => {
  const { take, statuses } = openDevices();
  take('tele/north/LWT', 'Online', { retained: true });
  expect(statuses).toEqual([]);
  take('tele/north/SENSOR', '{"Time":"2026-11-29T20:00:00","DS18B20":{"Id":"01","Temperature":40}}');
  expect(statuses).toEqual(['devices/north-01 online']);
});

test('only the copy that came by the family’s own filter counts', () => {
  const { take } = openDevices();
  expect(take('zigbee2mqtt/core', '{"temperature":41.5}', { cameBy: (filter) => filter === '#' })).toEqual([]);
  expect(take('zigbee2mqtt/core', '{"temperature":41.5}', { cameBy: (f) => f === 'zigbee2mqtt/#' })).toHaveLength(1);
});

test('a value out of range and a time in the future are refused with their reasons', () => {
  const { take, reasons } = openDevices();
  take('tele/north/SENSOR', '{"Time":"2026-11-29T20:00:00","DS18B20":{"Id":"01","Temperature":-127}}');
  take('zigbee2mqtt/core', JSON.stringify({ temperature: 40, last_seen: startMs + 3_600_000 }));
  take('core/sensor/temperature/state', 'broken');
  expect(reasons().map((reason) => reason.split(':')[0])).toEqual(['wrong-type', 'out-of-range', 'future-time']);
});

test('a chip’s 85 °C out of nothing is not believed of a device either', () => {
  const { take, reasons } = openDevices();
  expect(take('tele/north/SENSOR', '{"Time":"2026-11-29T20:00:00","DS18B20":{"Id":"01","Temperature":85}}')).toEqual(
    [],
  );
  expect(reasons()).toEqual([expect.stringMatching(/^power-on-value/)]);
});

test('messages that are for others are not refused', () => {
  const { take, reasons } = openDevices();
  for (const [topic, payload] of [
    ['tele/north/STATE', '{"Wifi":{"RSSI":80}}'],
    ['tele/north/SENSOR', '{"Time":"2026-'],
    ['zigbee2mqtt/bridge/logging', '{"level":"info"}'],
    ['home/x/BTtoMQTT/1', 'none'],
    ['a/status/b', 'x'],
    ['a/online', 'maybe'],
    ['some/where/else', '41'],
    ['zigbee2mqtt/x', ''],
    ['zigbee2mqtt/x', 'x'.repeat(70_000)],
  ] as const)
    expect(take(topic, payload)).toEqual([]);
  expect(reasons()).toEqual([]);
});

test.each([
  ['Compost/Core', '', /^compost-core$/],
  ['Pile 3', '28-01', /^pile-3-28-01$/],
  ['грядка', '', /^device-[0-9a-f]{8}$/],
  ['Grød & Bed', 'x', /^gr-d-bed-x-[0-9a-f]{8}$/],
  ['x'.repeat(100), '', /^x{55}-[0-9a-f]{8}$/],
  ['---', '', /^device-[0-9a-f]{8}$/],
])('deviceName(%j, %j)', (device, part, expected) => {
  const name = deviceName(device, part);
  expect(name).toMatch(expected);
  expect(name).toMatch(/^[a-z0-9_-]{1,64}$/);
  expect(deviceName(device, part)).toBe(name);
});

test('deviceName() tells two names apart of which it can hold only what they share', () => {
  expect(deviceName('грядка один', '')).not.toBe(deviceName('грядка два', ''));
});
