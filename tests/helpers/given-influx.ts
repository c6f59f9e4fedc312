/**
 * The InfluxDB that tests and benches use: the one named in BRANHEARTH_TEST_INFLUX_URL, of any generation, else a 1.6 of
 * their own. Of the named one BRANHEARTH_TEST_INFLUX_TOKEN must be allowed to make buckets and take them away (in 1 it is
 * user:password), _ORG names the organisation of 2, and _BUCKET is how the names of those buckets begin. It is reached by a
 * line that stands still or breaks where a test stops it: whoever started it goes on.
 */
import { randomBytes } from 'node:crypto';
import { z } from 'zod';
import { findGeneration } from '../../shared/store/influx/find-generation.ts';
import { authorization, type InfluxGeneration, type KnownInflux } from '../../shared/store/influx/influx-address.ts';
import { openFaultyLine } from './faulty-line.ts';
import { hasInflux, startInflux, type TestInflux } from './influxdb.ts';

const {
  BRANHEARTH_TEST_INFLUX_URL: givenUrl,
  BRANHEARTH_TEST_INFLUX_ORG: org,
  BRANHEARTH_TEST_INFLUX_BUCKET: begins = 'branhearth-test',
  BRANHEARTH_TEST_INFLUX_TOKEN: token,
} = process.env;

const isInfluxGiven = givenUrl !== undefined;
export const hasTestInflux = isInfluxGiven || hasInflux;
export const testInfluxGeneration = givenUrl === undefined ? 1 : await generationAt(givenUrl);
export const testInfluxName = isInfluxGiven ? `InfluxDB ${testInfluxGeneration} at ${givenUrl}` : 'InfluxDB 1.6';

export async function openTestInflux(): Promise<TestInflux> {
  return givenUrl === undefined ? startInflux() : openGivenInflux(givenUrl);
}

/** What a process is given to keep its readings there. */
export function readingsEnvironment({ url, bucket, org: of, token: secret, generation }: KnownInflux) {
  return {
    READINGS_URL: url,
    READINGS_BUCKET: bucket,
    READINGS_GENERATION: String(generation),
    ...(of !== undefined && { READINGS_ORG: of }),
    ...(secret !== undefined && { READINGS_TOKEN: secret }),
  };
}

async function openGivenInflux(serverUrl: string): Promise<TestInflux> {
  const line = await openFaultyLine(serverUrl);
  const known = (bucket: string): KnownInflux => ({
    url: line.url,
    bucket,
    org,
    token,
    generation: testInfluxGeneration,
  });
  const send = sender(serverUrl, authorization(known(begins)));
  const buckets = bucketsOf[testInfluxGeneration](send);
  const mine = begins + randomBytes(3).toString('hex');
  const made: string[] = [];

  async function newDatabase(): Promise<KnownInflux> {
    const bucket = `${mine}-${made.length}`;
    made.push(bucket);
    await buckets.make(bucket);
    return known(bucket);
  }

  async function remove(): Promise<void> {
    await line.close();
    for (const bucket of made.splice(0)) await buckets.remove(bucket);
  }

  return {
    url: line.url,
    newDatabase,
    remove,
    ask: async (question, { bucket = begins } = {}) =>
      (
        await send(
          'POST',
          `/query?${new URLSearchParams({ db: bucket, epoch: 'ms' })}`,
          new URLSearchParams({ q: question }),
        )
      ).text(),
    start: async () => line.set('open'),
    stop: async () => line.set('down'),
    freeze: () => line.set('frozen'),
    wake: () => line.set('open'),
  };
}

async function generationAt(url: string): Promise<InfluxGeneration> {
  const generation = await findGeneration({ url, bucket: begins, token });
  if (generation === undefined) throw new Error(`What answers at ${url} does not say which InfluxDB it is`);
  return generation;
}

type Send = (method: string, path: string, body?: object) => Promise<Response>;

/** Sends a form as a form and anything else as JSON; whatever is refused is an error. */
function sender(serverUrl: string, headers: Record<string, string>): Send {
  return async (method, path, body) => {
    const asForm = body instanceof URLSearchParams;
    const answer = await fetch(`${serverUrl}${path}`, {
      method,
      headers: { ...headers, ...(body && !asForm && { 'content-type': 'application/json' }) },
      ...(body && { body: asForm ? body : JSON.stringify(body) }),
    });
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${await answer.text()}`);
    return answer;
  };
}

interface Buckets {
  make(name: string): Promise<unknown>;
  remove(name: string): Promise<unknown>;
}

const orgsSchema = z.object({ orgs: z.array(z.object({ id: z.string() })) });
const bucketsSchema = z.object({ buckets: z.array(z.object({ id: z.string() })) });

const bucketsOf: Record<InfluxGeneration, (send: Send) => Buckets> = {
  1: (send) => ({
    async make(name) {
      const answer = await send('POST', '/query', new URLSearchParams({ q: `CREATE DATABASE "${name}"` }));
      const said = await answer.text();
      if (said.includes('error')) throw new Error(said);
    },
    remove: (name) => send('POST', '/query', new URLSearchParams({ q: `DROP DATABASE "${name}"` })),
  }),
  2: (send) => ({
    async make(name) {
      const answer = await send('GET', `/api/v2/orgs?${new URLSearchParams({ org: org ?? '' })}`);
      const { orgs } = orgsSchema.parse(await answer.json());
      await send('POST', '/api/v2/buckets', { orgID: orgs[0]?.id, name, retentionRules: [] });
    },
    async remove(name) {
      const answer = await send('GET', `/api/v2/buckets?${new URLSearchParams({ org: org ?? '', name })}`);
      const { buckets } = bucketsSchema.parse(await answer.json());
      for (const { id } of buckets) await send('DELETE', `/api/v2/buckets/${id}`);
    },
  }),
  3: (send) => ({
    make: (name) => send('POST', '/api/v3/configure/database', { db: name }),
    remove: (name) => send('DELETE', `/api/v3/configure/database?${new URLSearchParams({ db: name })}`),
  }),
};
