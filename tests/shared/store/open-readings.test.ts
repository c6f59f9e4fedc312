import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readConfig } from '../../../shared/config.ts';
import { generationOf } from '../../../shared/store/influx/find-generation.ts';
import { openReadings } from '../../../shared/store/open/open-readings.ts';
import { freePort } from '../../helpers/free-port.ts';
import { type InfluxDouble, startInfluxDouble } from '../../helpers/influx-double.ts';
import { hasInflux, startInflux, type TestInflux } from '../../helpers/influxdb.ts';

const open = (environment: Record<string, string>) => {
  const given = Object.entries(environment).map(([name, value]) => [`BRANHEARTH_READINGS_${name}`, value]);
  return openReadings(readConfig(Object.fromEntries(given)).config);
};

/** Opens, asks, closes. */
const opens = async (environment: Record<string, string>): Promise<void> => {
  const store = await open(environment);
  await store.check();
  await store.close();
};

test('generationOf() reads the versions that databases tell', () => {
  expect(['1.6.7~rc0', '1.8.10', 'v2.7.1', '3.0.0', 'v20.1', 'unknown', ''].map(generationOf)).toEqual([
    1,
    1,
    2,
    3,
    undefined,
    undefined,
    undefined,
  ]);
});

test('openReadings() refuses an address with a user, a query or another protocol', () => {
  for (const url of ['http://u:p@127.0.0.1:8086', 'http://127.0.0.1:8086?db=x', 'influx://127.0.0.1', 'x']) {
    expect(() => readConfig({ BRANHEARTH_READINGS_URL: url })).toThrow(/^BRANHEARTH_READINGS_URL must be the http/);
  }
  expect(() => readConfig({ BRANHEARTH_READINGS_URL: 'http://me:secret@db' })).toThrow(/it was "http:\/\/…@db"$/);
  expect(() => readConfig({ BRANHEARTH_READINGS_TOKEN: 'a b' })).toThrow(/_TOKEN must be .* it was 3 characters$/);
  expect(() => readConfig({ BRANHEARTH_READINGS_GENERATION: '4' })).toThrow(/must be the generation .*it was "4"$/);
});

test('openReadings() names the address when nothing listens there', async () => {
  const url = `http://127.0.0.1:${await freePort()}`;
  for (const more of [{}, { GENERATION: '1' }]) {
    await expect(open({ URL: url, ...more })).rejects.toThrow(
      `BRANHEARTH_READINGS_URL must be the address of an InfluxDB that answers; it was "${url}" (it cannot be reached: ECONNREFUSED)`,
    );
  }
});

describe.skipIf(!hasInflux)('openReadings() with InfluxDB 1.6', () => {
  let plain: TestInflux;
  let guarded: TestInflux;
  beforeAll(async () => {
    plain = await startInflux();
    await plain.ask('CREATE DATABASE branhearth');
    guarded = await startInflux({ 'auth-enabled': 'true' });
    await guarded.ask(`CREATE USER root WITH PASSWORD 'r' WITH ALL PRIVILEGES`);
    await guarded.ask('CREATE DATABASE branhearth', { user: 'root:r' });
    await guarded.ask(`CREATE USER server WITH PASSWORD 'pass'`, { user: 'root:r' });
    await guarded.ask(`CREATE USER guest WITH PASSWORD 'pass'`, { user: 'root:r' });
    await guarded.ask('GRANT ALL ON branhearth TO server', { user: 'root:r' });
    await guarded.ask('GRANT READ ON branhearth TO guest', { user: 'root:r' });
  });
  afterAll(async () => {
    await plain.remove();
    await guarded.remove();
  });

  test('asks the database for its generation, and takes it when told', async () => {
    await opens({ URL: plain.url });
    await opens({ URL: `${plain.url}/`, GENERATION: '1' });
    await opens({ URL: plain.url, BUCKET: 'branhearth/autogen' });
  });

  test('names the bucket when it is not there', async () => {
    await expect(open({ URL: plain.url, BUCKET: 'nowhere' })).rejects.toThrow(
      'BRANHEARTH_READINGS_BUCKET must name a bucket (database) that is there; it was "nowhere" (InfluxDB answered 404: database not found: "nowhere")',
    );
    await expect(open({ URL: plain.url, BUCKET: 'branhearth/never' })).rejects.toThrow(
      /^BRANHEARTH_READINGS_BUCKET must/,
    );
  });

  test('names the bucket when it forgets by age', async () => {
    await plain.ask('CREATE DATABASE forgetful WITH DURATION 30d NAME short');
    await expect(open({ URL: plain.url, BUCKET: 'forgetful' })).rejects.toThrow(
      /^BRANHEARTH_READINGS_BUCKET must keep points without end.*"forgetful" \(InfluxDB answered 400: partial write: points beyond retention policy/,
    );
  });

  test('names the token when it may not read and write', async () => {
    await opens({ URL: guarded.url, TOKEN: 'server:pass' });
    await expect(open({ URL: guarded.url })).rejects.toThrow(
      /^BRANHEARTH_READINGS_TOKEN must be user:password.*; it was not set/,
    );
    for (const token of ['server:wrong', 'guest:pass']) {
      await expect(open({ URL: guarded.url, TOKEN: token })).rejects.toThrow(
        new RegExp(
          `^BRANHEARTH_READINGS_TOKEN must be .* it was ${token.length} characters \\(InfluxDB answered 40[13]: `,
        ),
      );
    }
  });

  for (const generation of [2, 3] as const) {
    test(`names what is wrong for a double of InfluxDB ${generation}`, async () => {
      const double: InfluxDouble = await startInfluxDouble(generation, plain.url);
      const { url, token, org } = double;
      const right = { URL: url, TOKEN: token, ...(generation === 2 && { ORG: org }) };
      await opens(right);
      await expect(open({ ...right, TOKEN: 'wrong' })).rejects.toThrow(
        /^BRANHEARTH_READINGS_TOKEN must be a token that may.*answered 401/,
      );
      await expect(open({ ...right, BUCKET: 'nowhere' })).rejects.toThrow(
        /^BRANHEARTH_READINGS_BUCKET must name.*"nowhere"/,
      );
      if (generation === 2) {
        await expect(open({ ...right, ORG: 'nobody' })).rejects.toThrow(/^BRANHEARTH_READINGS_ORG must name.*"nobody"/);
        double.may = 'read';
        await expect(open(right)).rejects.toThrow(
          /^BRANHEARTH_READINGS_TOKEN must be a token that may read and write.*\(InfluxDB answered 403: insufficient permissions for write\)$/,
        );
        double.may = 'write';
        await expect(open(right)).rejects.toThrow(
          /^BRANHEARTH_READINGS_TOKEN must be a token that may read "branhearth" too;.*took a point and then answered: database not found: branhearth; a DBRP mapping/,
        );
        double.may = 'both';
        await expect(open({ URL: url, TOKEN: token })).rejects.toThrow(
          /^BRANHEARTH_READINGS_ORG must name the organisation.*not set$/,
        );
      }
      await double.close();
    });
  }

  test('names the address when something else answers there', async () => {
    const { createServer } = await import('node:http');
    const server = createServer((_, response) => void response.writeHead(200).end('hello'));
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const address = server.address();
    const url = `http://127.0.0.1:${typeof address === 'object' && address ? address.port : 0}`;
    await expect(open({ URL: url })).rejects.toThrow(
      /^BRANHEARTH_READINGS_GENERATION must be 1, 2, 3 as what answers at/,
    );
    await expect(open({ URL: url, GENERATION: '1' })).rejects.toThrow(/^BRANHEARTH_READINGS_URL must be/);
    server.close();
  });
});
