/**
 * The readings store of a configuration that names an InfluxDB.
 *
 * @throws {ConfigError} one line naming the variable at fault.
 */
import { HttpError } from '@influxdata/influxdb-client';
import { ConfigError } from '../../errors.ts';
import type { ReadingsStore } from '../readings-store.ts';
import { findGeneration } from './find-generation.ts';
import { type InfluxAddress, influxGenerations, type KnownInflux } from './influx-address.ts';
import { authPatience, InfluxClient } from './influx-client.ts';
import { isRefusedWrite, QueryRefused, reasonOf, refusalOf } from './influx-error.ts';
import { openInfluxReadings } from './influx-readings.ts';
import { SelfCheckFailed, type SelfCheckFault, selfCheck } from './self-check.ts';

/** @param series Which it knows from the start; see openInfluxReadings(). */
export async function openInflux(address: InfluxAddress, series: 'all' | 'none'): Promise<ReadingsStore> {
  return openInfluxReadings(await checkInflux(address), authPatience, series);
}

/**
 * Finds out the generation where it is not given, and whether a reading can be written, read and taken away there.
 * @throws {ConfigError} one line naming the variable at fault.
 */
export async function checkInflux(address: InfluxAddress): Promise<KnownInflux> {
  const generation = address.generation ?? (await askGeneration(address));
  const known = { ...address, generation };
  if (generation === 2 && address.org === undefined) {
    throw new ConfigError(
      'BRANHEARTH_READINGS_ORG must name the organisation of the bucket in InfluxDB 2; it was not set',
    );
  }
  const client = new InfluxClient(known);
  try {
    await client.pulse();
    await client.checkReadable();
    await selfCheck(client, Date.now());
    return known;
  } catch (cause) {
    throw wrongSetting(known, cause);
  } finally {
    client.close();
  }
}

async function askGeneration(address: InfluxAddress): Promise<(typeof influxGenerations)[number]> {
  const generation = await findGeneration(address).catch((cause: unknown) => {
    throw wrongUrl(address, `it ${reasonOf(cause)}`, cause);
  });
  if (generation !== undefined) return generation;
  throw new ConfigError(
    `BRANHEARTH_READINGS_GENERATION must be ${influxGenerations.join(', ')} as what answers at ${address.url} does not say which InfluxDB it is; it was not set`,
  );
}

function wrongSetting(address: KnownInflux, cause: unknown): ConfigError {
  const { bucket, org, generation } = address;
  if (cause instanceof HttpError) {
    const said = `InfluxDB answered ${cause.statusCode}: ${refusalOf(cause)}`;
    if (cause.statusCode === 401 || cause.statusCode === 403) return wrongToken(address, said, cause);
    if (cause.statusCode === 404 && /organi[sz]ation/i.test(said)) {
      return new ConfigError(
        `BRANHEARTH_READINGS_ORG must name an organisation of the database; it was ${JSON.stringify(org)} (${said})`,
        { cause },
      );
    }
    if (isRefusedWrite(cause)) return wrongRetention(bucket, said, cause);
    if (/bucket|database|retention policy/i.test(said) && /not found/i.test(said))
      return wrongBucket(bucket, said, cause);
    return wrongUrl(address, said, cause);
  }
  if (cause instanceof QueryRefused) {
    if (/authoriz|permission/i.test(cause.message)) return wrongToken(address, cause.message, cause);
    if (generation === 2 && /database not found/.test(cause.message)) return mayNotRead(address, cause);
    return wrongBucket(bucket, `InfluxDB answered: ${cause.message}`, cause);
  }
  if (cause instanceof SelfCheckFailed) return failedCheck(address, cause);
  return wrongUrl(address, `it ${reasonOf(cause)}`, cause);
}

function failedCheck({ generation, bucket }: KnownInflux, cause: SelfCheckFailed): ConfigError {
  const elsewhere: Record<1 | 2 | 3, string> = {
    1: 'name its retention policy too, as database/policy, where it is not the default one',
    2: 'a DBRP mapping of that name leads to another bucket: `influx v1 dbrp list` shows it, and `influx v1 dbrp delete` takes it away',
    3: 'ask whoever runs the database whether InfluxQL reads what /api/v2/write takes',
  };
  const said: Record<SelfCheckFault, string> = {
    'not-found': `a point that it took was not there when it was asked for; ${elsewhere[generation]}`,
    'another-value': 'a point that it took came back with another value; what stands between must change nothing',
    'not-removed': 'a point that it said it took away was still there; downsampling would remove nothing',
  };
  return new ConfigError(
    `BRANHEARTH_READINGS_BUCKET must give back what is written to it; it was ${JSON.stringify(bucket)} (${said[cause.fault]})`,
    { cause },
  );
}

function wrongUrl({ url }: InfluxAddress, reason: string, cause: unknown): ConfigError {
  return new ConfigError(
    `BRANHEARTH_READINGS_URL must be the address of an InfluxDB that answers; it was ${JSON.stringify(url)} (${reason})`,
    { cause },
  );
}

function wrongToken({ generation, bucket, token }: KnownInflux, said: string, cause: unknown): ConfigError {
  const must = generation === 1 ? 'user:password of one who may' : 'a token that may';
  const was = token === undefined ? 'it was not set' : `it was ${token.length} characters`;
  return new ConfigError(
    `BRANHEARTH_READINGS_TOKEN must be ${must} read and write ${JSON.stringify(bucket)}; ${was} (${said})`,
    { cause },
  );
}

/**
 * The bucket is there, as it took a point before it was asked. InfluxDB 2.7 says so of one that the token may not read, and
 * of one whose DBRP mapping leads to such a bucket.
 */
function mayNotRead({ bucket, token }: KnownInflux, cause: QueryRefused): ConfigError {
  return new ConfigError(
    `BRANHEARTH_READINGS_TOKEN must be a token that may read ${JSON.stringify(bucket)} too; it was ${token?.length ?? 0} characters (InfluxDB took a point and then answered: ${cause.message}; a DBRP mapping that leads to another bucket has the same answer: \`influx v1 dbrp list\` shows it)`,
    { cause },
  );
}

/** The notes of the series stand at time 0. */
function wrongRetention(bucket: string, said: string, cause: unknown): ConfigError {
  return new ConfigError(
    `BRANHEARTH_READINGS_BUCKET must keep points without end, as Branhearth thins readings itself; it was ${JSON.stringify(bucket)} (${said})`,
    { cause },
  );
}

function wrongBucket(bucket: string, said: string, cause: unknown): ConfigError {
  return new ConfigError(
    `BRANHEARTH_READINGS_BUCKET must name a bucket (database) that is there; it was ${JSON.stringify(bucket)} (${said})`,
    { cause },
  );
}
