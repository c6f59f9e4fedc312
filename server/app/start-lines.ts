/** What a person at a terminal needs to know of a server that has just started; pure but for the machine's own address. */
import { resolve } from 'node:path';
import { type Config, isLoopback } from '../../shared/config.ts';
import type { Only } from '../cluster/servers.ts';
import { ownAddresses } from '../services/probe-keys/own-addresses.ts';

export interface StartFacts {
  readonly version: string;
  readonly only: Only | undefined;
  readonly config: Pick<
    Config,
    'HOST' | 'DATA_DIR' | 'JOURNAL_URL' | 'READINGS_URL' | 'MQTT_URL' | 'MQTT_HOST' | 'MQTT_TLS_HOST'
  > &
    Pick<Config, 'MQTT_TRUSTED_NETWORK'>;
  readonly pagesUrl: string;
  /** Undefined once there is an owner. */
  readonly ownersLink: string | undefined;
  readonly mqttUrl: string;
  readonly mqttTlsUrl: string | undefined;
  /** Addresses of this machine in its network; asked of the system when absent. */
  readonly ownAddresses?: readonly string[];
}

export function startLines(facts: StartFacts): string {
  const { version, only, config, pagesUrl, ownersLink } = facts;
  const reach = isLoopback(config.HOST) ? 'from this machine only' : 'from your network too';
  const rows: [string, string][] = [
    only === 'ingest' ? ['Health', `${pagesUrl}/api/health`] : ['Pages', `${pagesUrl} (${reach})`],
  ];
  if (ownersLink !== undefined && only !== 'ingest')
    rows.push(['Become owner', `${ownersLink} (once, within 24 hours)`]);
  rows.push(['Probes', probesText(facts)], ['Data', dataText(config)], ['Stop', 'press Ctrl-C']);
  const width = Math.max(...rows.map(([name]) => name.length));
  const lines = rows.map(([name, text]) => `  ${name.padEnd(width)}  ${text}\n`);
  return `Branhearth ${version}${only ? ` (${only} only)` : ''} is running\n${lines.join('')}`;
}

function probesText({ config, mqttUrl, mqttTlsUrl, ownAddresses: own = ownAddresses() }: StartFacts): string {
  if (config.MQTT_URL !== undefined) return `publish to your broker, ${mqttUrl}`;
  const key = config.MQTT_TRUSTED_NETWORK === 'yes' ? 'without a key' : 'with a key, see “Keys for probes”';
  const beyond = [
    isLoopback(config.MQTT_HOST) ? [] : [mqttUrl],
    mqttTlsUrl === undefined || isLoopback(config.MQTT_TLS_HOST) ? [] : [mqttTlsUrl],
  ]
    .flat()
    .map((url) => url.replace(/0\.0\.0\.0|\[::\]/, own[0] ?? 'ADDRESS-OF-THIS-MACHINE'));
  if (beyond.length > 0) return `publish to ${beyond.join(' or ')}; those of your network ${key}`;
  return `publish to ${mqttUrl} (from this machine only; BRANHEARTH_MQTT_HOST=0.0.0.0 lets those of your network in)`;
}

function dataText({ DATA_DIR, JOURNAL_URL, READINGS_URL }: StartFacts['config']): string {
  const away = [
    ...(JOURNAL_URL === undefined ? [] : ['the journal in PostgreSQL']),
    ...(READINGS_URL === undefined ? [] : ['the readings in InfluxDB']),
  ];
  if (away.length === 2) return away.join(', ');
  return [resolve(DATA_DIR), ...away].join(', ');
}
