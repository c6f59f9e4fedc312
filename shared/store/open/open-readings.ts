/**
 * The readings store that a configuration names: SQLite in the data folder, or an InfluxDB.
 *
 * @throws {ConfigError} one line naming the variable at fault; {StoreError} when the file cannot be opened.
 */
import { join } from 'node:path';
import { trimSignEnd } from '../../trim-sign.ts';
import type { InfluxAddress } from '../influx/influx-address.ts';
import { openSqliteReadings } from '../readings/sqlite-readings.ts';
import type { ReadingsStore } from '../readings-store.ts';

/** The part of the configuration that says where readings are. */
export interface ReadingsConfig {
  readonly DATA_DIR: string;
  readonly READINGS_URL?: string | undefined;
  readonly READINGS_ORG?: string | undefined;
  readonly READINGS_BUCKET: string;
  readonly READINGS_TOKEN?: string | undefined;
  readonly READINGS_GENERATION?: 1 | 2 | 3 | undefined;
}

/** @param series Which a database at a server is asked for at once: all, or each site's when they are first needed. */
export async function openReadings(config: ReadingsConfig, series: 'all' | 'none' = 'all'): Promise<ReadingsStore> {
  if (config.READINGS_URL === undefined) return openSqliteReadings(join(config.DATA_DIR, 'readings.db'));
  const { openInflux } = await import('../influx/open-influx.ts'); // most servers have none: its client is not loaded for them
  return openInflux(influxAddressOf(config, config.READINGS_URL), series);
}

export function influxAddressOf(config: ReadingsConfig, url: string): InfluxAddress {
  return {
    url: trimSignEnd(url, '/'),
    org: config.READINGS_ORG,
    bucket: config.READINGS_BUCKET,
    token: config.READINGS_TOKEN,
    generation: config.READINGS_GENERATION,
  };
}
