import { expect, test } from 'vitest';
import { type StartFacts, startLines } from '../../../server/app/start-lines.ts';
import { readConfig } from '../../../shared/config.ts';

function lines(environment: Record<string, string> = {}, more: Partial<StartFacts> = {}): string {
  const named = Object.entries(environment).map(([name, value]) => [`BRANHEARTH_${name}`, value]);
  return startLines({
    version: '1.0.0',
    only: undefined,
    config: readConfig(Object.fromEntries(named)).config,
    pagesUrl: 'http://127.0.0.1:4180',
    ownersLink: undefined,
    mqttUrl: 'mqtt://127.0.0.1:1883',
    mqttTlsUrl: undefined,
    ownAddresses: ['192.0.2.7'],
    ...more,
  });
}

test('startLines() has five lines for whoever is to become owner, and four once there is one', () => {
  expect(lines({}, { ownersLink: 'http://127.0.0.1:4180/setup#x' }).trim().split('\n')).toHaveLength(1 + 5);
  expect(lines().trim().split('\n')).toHaveLength(1 + 4);
});

test.each<[string, Record<string, string>, Partial<StartFacts>, RegExp]>([
  [
    'from this machine only',
    {},
    {},
    /mqtt:\/\/127\.0\.0\.1:1883 \(from this machine only;.*BRANHEARTH_MQTT_HOST=0\.0\.0\.0/,
  ],
  [
    'from the network, with a key, at an address that a probe can be given',
    { MQTT_HOST: '0.0.0.0' },
    { mqttUrl: 'mqtt://0.0.0.0:1883' },
    /mqtt:\/\/192\.0\.2\.7:1883; those of your network with a key/,
  ],
  [
    'from a network that is trusted, without a key',
    { MQTT_HOST: '0.0.0.0', MQTT_TRUSTED_NETWORK: 'yes' },
    { mqttUrl: 'mqtt://0.0.0.0:1883' },
    /those of your network without a key/,
  ],
  [
    'from the network by TLS alone',
    { MQTT_TLS_HOST: '0.0.0.0', MQTT_TLS_CERT: 'c', MQTT_TLS_KEY: 'k' },
    { mqttTlsUrl: 'mqtts://0.0.0.0:8883' },
    /publish to mqtts:\/\/192\.0\.2\.7:8883; those of/,
  ],
  [
    'to a broker of their own',
    { MQTT_URL: 'mqtt://broker.example' },
    { mqttUrl: 'mqtt://broker.example' },
    /publish to your broker, mqtt:\/\/broker\.example/,
  ],
])('startLines() says that probes may publish %s', (_who, environment, more, expected) => {
  expect(lines(environment, more)).toMatch(expected);
});

test('startLines() says what is kept at servers instead of the data folder', () => {
  expect(lines({ READINGS_URL: 'http://influx.example:8086' })).toMatch(/Data .*data, the readings in InfluxDB\n/);
  const both = { JOURNAL_URL: 'postgres://a:secret@b/c', READINGS_URL: 'http://influx.example:8086' };
  expect(lines(both)).toMatch(/Data +the journal in PostgreSQL, the readings in InfluxDB\n/);
});
