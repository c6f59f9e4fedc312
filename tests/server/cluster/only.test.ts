import { expect, test } from 'vitest';
import { onlyOf, serversOf } from '../../../server/cluster/servers.ts';
import { readConfig } from '../../../shared/config.ts';

test('a start takes nothing, --only ingest or --only web, and says so of anything else', () => {
  expect(onlyOf([])).toBeUndefined();
  expect(onlyOf(['--only', 'web'])).toBe('web');
  expect(onlyOf(['--only=ingest'])).toBe('ingest');
  for (const wrong of [['--only'], ['--only', 'pages'], ['--help'], ['--only', 'web', 'x']]) {
    expect(() => onlyOf(wrong)).toThrow(
      /^A start takes --only ingest or --only web, --help, --version, or nothing; it was given [^\n]+$/,
    );
  }
});

test('--only needs everything at servers, and names what is not', () => {
  const { config } = readConfig({ BRANHEARTH_JOURNAL_URL: 'postgres://db.example/farm' });
  expect(() => serversOf(config, 'web')).toThrow(
    /^--only web must find journal, readings and broker at servers, [^\n]*not set: BRANHEARTH_READINGS_URL, BRANHEARTH_MQTT_URL$/,
  );
});
