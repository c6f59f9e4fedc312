import { expect, test } from 'vitest';
import { readConfig } from '../../shared/config.ts';
import { configVariables } from '../../shared/config-variables.ts';

test('readConfig() of an empty environment gives the defaults', () => {
  const { config, unknown } = readConfig({});
  expect(config).toMatchObject({
    PORT: 4180,
    HOST: '127.0.0.1',
    MQTT_PORT: 1883,
    MQTT_ROOT: 'piles',
    DATA_DIR: './data',
  });
  expect(config.API_TOKEN).toBeUndefined();
  expect(unknown).toEqual([]);
});

const wrong: [string, Record<string, string>, string][] = [
  ['a port that is none', { PORT: '70000' }, 'BRANHEARTH_PORT must be a port from 0 to 65535'],
  ['a port in words', { MQTT_PORT: 'eighteen' }, 'BRANHEARTH_MQTT_PORT must be a port'],
  ['a short token', { API_TOKEN: 'short' }, 'it was 5 characters'],
  ['a URL of another kind', { MQTT_URL: 'http://x' }, 'BRANHEARTH_MQTT_URL must be mqtt://'],
  [
    'a public address of another kind',
    { PUBLIC_URL: 'ftp://farm.example' },
    'BRANHEARTH_PUBLIC_URL must be the http://',
  ],
  [
    'a public address with a query',
    { PUBLIC_URL: 'https://farm.example/?a=1' },
    'BRANHEARTH_PUBLIC_URL must be the http://',
  ],
  ['a root with a slash', { MQTT_ROOT: 'a/b' }, 'it was "a/b"'],
  ['a clock that is no clock', { CLOCK: '{"speed":2}' }, 'BRANHEARTH_CLOCK must be JSON'],
  [
    'a certificate of the broker without its key',
    { MQTT_TLS_CERT: 'cert.pem' },
    'BRANHEARTH_MQTT_TLS_KEY must be set too',
  ],
  [
    'a key of the broker without its certificate',
    { MQTT_TLS_KEY: 'key.pem' },
    'BRANHEARTH_MQTT_TLS_CERT must be set too',
  ],
  ['a trusted network of probes in other words', { MQTT_TRUSTED_NETWORK: 'true' }, 'must be the word yes'],
  ['no connections', { MQTT_CONNECTIONS: '0' }, 'from 10 to 100000'],
  ['an open address without TLS', { HOST: '0.0.0.0' }, 'BRANHEARTH_HOST must be a loopback address'],
  [
    'an open address with a token, which would go over the line in the clear',
    { HOST: '0.0.0.0', API_TOKEN: 'x'.repeat(16) },
    'or say BRANHEARTH_PLAIN_HTTP=behind-a-proxy or =on-a-trusted-network if you mean it; it was "0.0.0.0"',
  ],
  [
    'plain HTTP in other words',
    { HOST: '::', PLAIN_HTTP: 'yes' },
    'BRANHEARTH_PLAIN_HTTP must be one of behind-a-proxy',
  ],
  [
    'a certificate without its key',
    { TLS_CERT: 'c.pem' },
    'BRANHEARTH_TLS_KEY must be set too, as BRANHEARTH_TLS_CERT is',
  ],
  [
    'a key without its certificate',
    { TLS_KEY: 'k.pem' },
    'BRANHEARTH_TLS_CERT must be set too, as BRANHEARTH_TLS_KEY is',
  ],
  ['a proxy by its name', { TRUSTED_PROXIES: '127.0.0.1,proxy' }, 'BRANHEARTH_TRUSTED_PROXIES must be the addresses'],
];
for (const [what, given, message] of wrong) {
  test(`readConfig() refuses ${what} in one line that names the variable`, () => {
    const environment = Object.fromEntries(Object.entries(given).map(([name, value]) => [`BRANHEARTH_${name}`, value]));
    expect(() => readConfig(environment)).toThrowError(message);
    try {
      readConfig(environment);
    } catch (error) {
      expect((error as Error).message).not.toContain('\n');
    }
  });
}

test('readConfig() does not show a secret in its error', () => {
  expect(() => readConfig({ BRANHEARTH_API_TOKEN: 'hunter2' })).toThrowError(/^(?!.*hunter2)/);
});

const opened: [string, Record<string, string>][] = [
  ['TLS', { TLS_CERT: 'c.pem', TLS_KEY: 'k.pem' }],
  ['a proxy that was told of', { PLAIN_HTTP: 'behind-a-proxy' }],
  ['a network that is said to be trusted', { PLAIN_HTTP: 'on-a-trusted-network' }],
];
for (const [what, given] of opened) {
  test(`readConfig() takes an open address with ${what}`, () => {
    const environment = Object.fromEntries(Object.entries(given).map(([name, value]) => [`BRANHEARTH_${name}`, value]));
    expect(readConfig({ BRANHEARTH_HOST: '0.0.0.0', ...environment }).config.HOST).toBe('0.0.0.0');
  });
}

test('readConfig() reads proxies as a list of addresses and networks', () => {
  const { config } = readConfig({ BRANHEARTH_TRUSTED_PROXIES: '127.0.0.1, 10.0.0.0/8,fd00::/8' });
  expect(config.TRUSTED_PROXIES).toEqual(['127.0.0.1', '10.0.0.0/8', 'fd00::/8']);
});

test('readConfig() names what it does not know', () => {
  expect(readConfig({ BRANHEARTH_PROT: '1', HOME: '/' }).unknown).toEqual(['BRANHEARTH_PROT']);
});

test('every variable says what it must be', () => {
  for (const { must } of Object.values(configVariables)) expect(must).toMatch(/^(a|the|one|mqtt|JSON)/);
});

test('readConfig() keeps the public address without a slash at its end', () => {
  const { config } = readConfig({ BRANHEARTH_PUBLIC_URL: 'https://farm.example:8443/' });
  expect(config.PUBLIC_URL).toBe('https://farm.example:8443');
});
