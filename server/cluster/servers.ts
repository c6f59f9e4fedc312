/** Several processes share what lies at servers, and nothing that lies in one's own folder. */

import type { Config } from '../../shared/config.ts';
import { ConfigError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import { partHealth } from '../../shared/part-health.ts';

export type Only = 'ingest' | 'web';

/** What /api/health says of the disk. */
export const nothingHere = partHealth('off', message('health.disk.servers'));

/** @throws {ConfigError} one line that names what is missing. */
export function serversOf(config: Config, only: Only): { journalUrl: string } {
  const { JOURNAL_URL, READINGS_URL, MQTT_URL } = config;
  const needed = { JOURNAL_URL, READINGS_URL, MQTT_URL };
  const missing = Object.entries(needed).flatMap(([name, value]) => (value === undefined ? `BRANHEARTH_${name}` : []));
  if (missing.length > 0 || JOURNAL_URL === undefined) {
    throw new ConfigError(
      `--only ${only} must find journal, readings and broker at servers, as several processes share them; not set: ${missing.join(', ')}`,
    );
  }
  return { journalUrl: JOURNAL_URL };
}

/** What of the program to run. @throws {ConfigError} */
export function onlyOf(given: readonly string[]): Only | undefined {
  if (given.length === 0) return undefined;
  const [option, value] = given.flatMap((one) => one.split('=', 2));
  if (option === '--only' && (value === 'ingest' || value === 'web') && given.length <= 2) return value;
  throw new ConfigError(
    `A start takes --only ingest or --only web, --help, --version, or nothing; it was given ${given.join(' ')}`,
  );
}
