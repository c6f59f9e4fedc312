/** The file for ESPHome and the line for Tasmota: held against the documentation, and what such a board then says is read. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { connectAsync } from 'mqtt';
import { expect, test } from 'vitest';
import { createAuthPolicy } from '../../../ingest/auth/auth-policy.ts';
import { type Ending, fillIn, type ProbeSettings } from '../../../ingest/probes/fill-in.ts';
import { liveClock } from '../../../shared/clock.ts';
import { openIngest } from '../open-ingest.ts';
import { readEsphome } from './board/esphome-schema.ts';
import { readTasmotaLine } from './board/tasmota-line.ts';

const settings: ProbeSettings = {
  wifi: 'Saltmere: "barn" #2',
  wifiPassword: '$' + '{name} \\ @broker@',
  broker: '192.168.7.20',
  port: 1883,
  user: 'key-1',
  password: 'secret-of-key-1',
  root: 'piles',
  site: 'saltmere-yard',
  probe: 'core_3',
  withSoil: true,
  withBattery: false,
};
const filled = (name: string, ending: Ending, change: Partial<ProbeSettings> = {}) =>
  fillIn(readFileSync(new URL(`../../../ingest/probes/${name}`, import.meta.url), 'utf8'), ending, {
    ...settings,
    ...change,
  });

test('the file for ESPHome stands to its documentation, with every value as it was given', () => {
  const file = filled('probe.yaml', 'yaml');
  const { esphome, wifi, mqtt, sensor } = readEsphome(file);
  expect(file).not.toContain('$');
  expect([esphome.name, wifi]).toEqual(['probe-core-3', { ssid: settings.wifi, password: settings.wifiPassword }]);
  expect(mqtt).toMatchObject({ broker: '192.168.7.20', port: 1883, username: 'key-1', password: 'secret-of-key-1' });
  expect(mqtt.topic_prefix).toBe('piles/saltmere-yard/core_3');
  expect(sensor.map(({ state_topic, qos, retain }) => [state_topic, qos, retain])).toEqual([
    ['piles/saltmere-yard/core_3/temperature', 1, false],
    ['piles/saltmere-yard/core_3/moisture', 1, false],
  ]);
  expect(readEsphome(filled('probe.yaml', 'yaml', { withSoil: false })).sensor.length).toBe(1);
});

test('the schema refuses a key that the documentation does not have', () => {
  expect(() => readEsphome(filled('probe.yaml', 'yaml').replace('log_topic', 'log_topics'))).toThrow('log_topics');
});

test('the line for Tasmota has one value a command, and is refused where a value would end it', () => {
  expect(readTasmotaLine(filled('tasmota.txt', 'txt').trim())).toEqual({
    MqttHost: '192.168.7.20',
    MqttPort: '1883',
    MqttUser: 'key-1',
    MqttPassword: 'secret-of-key-1',
    Topic: 'core_3',
    TelePeriod: '300',
    GPIO4: '1312',
  });
  expect(() => filled('tasmota.txt', 'txt', { password: 'a;Reset 1' })).toThrow(/semicolons/);
});

test('no placeholder is left in any file, and a value that looks like one stays as it is', () => {
  for (const [name, ending] of [
    ['probe.py', 'py'],
    ['probe.ino', 'ino'],
    ['probe.yaml', 'yaml'],
    ['tasmota.txt', 'txt'],
  ] as const) {
    expect([name, filled(name, ending).match(/@\w+@/g) ?? []]).toEqual([name, ending === 'txt' ? [] : ['@broker@']]);
  }
});

test('a control sign in a value is refused', () => {
  expect(() => filled('probe.py', 'py', { wifi: 'a\nimport os' })).toThrow();
});

test('what a board with ESPHome says by its file is read with the key of one probe', async () => {
  const authPolicy = createAuthPolicy({ clock: liveClock, root: 'piles', rules: { everyProbeNeedsAKey: true } });
  const secretSha256 = createHash('sha256').update(settings.password).digest('hex');
  authPolicy.setKeys([
    { id: 'key-1', secretSha256, site: 'saltmere-yard', probe: 'core_3', foreign: [], hears: 'own' },
  ]);
  const { ingest, store, statuses } = await openIngest({ kind: 'embedded', port: 0, host: '127.0.0.1', authPolicy });
  const { mqtt, sensor } = readEsphome(filled('probe.yaml', 'yaml'));
  const client = await connectAsync(ingest.url, { username: mqtt.username, password: mqtt.password });
  // Birth and will of ESPHome (“MQTT client”): online and offline, retained, on the prefix.
  await client.publishAsync(`${mqtt.topic_prefix}/status`, 'online', { qos: 0, retain: true });
  for (const [index, { state_topic, qos, retain }] of sensor.entries()) {
    await client.publishAsync(state_topic, ['41.5', '38.0'][index] ?? '', { qos, retain });
  }
  expect([...store.kept.values()].map(({ quantity, value }) => [quantity, value])).toEqual([
    ['temperature', 41.5],
    ['moisture', 38],
  ]);
  expect([statuses, ingest.refusals().refusals]).toEqual([['saltmere-yard/core_3 online'], []]);
  await client.endAsync();
  await ingest.close();
});
