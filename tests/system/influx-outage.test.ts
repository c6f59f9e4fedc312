import { setTimeout as pause } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { openInfluxReadings } from '../../shared/store/influx/influx-readings.ts';
import { type LineState, openFaultyLine } from '../helpers/faulty-line.ts';
import { hasTestInflux, openTestInflux, readingsEnvironment } from '../helpers/given-influx.ts';
import { hasMosquitto, startMosquitto } from '../helpers/mosquitto.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';
import { lastTimes, numbersIn, startLoad } from './kill-load.ts';

interface Health {
  ready: boolean;
  parts: Record<'broker' | 'readings', { state: string; detail: string }>;
}

const healthOf = async (pagesUrl: string): Promise<Health> =>
  (await (await fetch(`${pagesUrl}/api/health`)).json()) as Health;

/** Health as it is told, once its readings are in this state. */
const untilReadings = (pagesUrl: string, state: 'ok' | 'down') =>
  until(`readings that are ${state}`, async () => {
    const health = await healthOf(pagesUrl);
    return health.parts.readings.state === state ? health : undefined;
  });

test.skipIf(!hasTestInflux || !hasMosquitto)(
  'every reading is in InfluxDB once after it was stopped, frozen, slow, busy, failing and not heard, and the server killed',
  async () => {
    const { dataDir, remove } = await makeDataDir();
    const [broker, influx] = [await startMosquitto(), await openTestInflux()];
    const address = await influx.newDatabase();
    const line = await openFaultyLine(influx.url);
    const start = () =>
      spawnInstallation(dataDir, {
        environment: { MQTT_URL: broker.url, ...readingsEnvironment({ ...address, url: line.url }) },
      });
    let installation = await start();
    await until(
      'the subscription',
      async () => (await healthOf(installation.pagesUrl)).parts.broker.state === 'ok' || undefined,
    );
    const load = startLoad(broker.url, 20, 10);
    await pause(500);

    await influx.stop();
    const stopped = await untilReadings(installation.pagesUrl, 'down');
    expect(stopped.ready).toBe(false);
    expect(stopped.parts.readings.detail).toMatch(/^Cannot take readings as InfluxDB at http:\S+ /);
    const held = await until('held messages', async () => {
      const { detail } = (await healthOf(installation.pagesUrl)).parts.broker;
      return /Readings cannot be stored \(Cannot keep .*\); (\d+) messages wait unacknowledged/.exec(detail)?.[1];
    });
    expect(Number(held)).toBeLessThanOrEqual(50_000);
    await influx.start();
    await untilReadings(installation.pagesUrl, 'ok');

    influx.freeze();
    const frozen = await untilReadings(installation.pagesUrl, 'down');
    expect(frozen.parts.readings.detail).toMatch(/gave no answer within 3 s/);
    await pause(9_000); // until a write was given up too, that the database carries out when it wakes
    influx.wake();
    await untilReadings(installation.pagesUrl, 'ok');

    for (const state of ['slow', 'busy', 'failing', 'lost', 'down'] satisfies LineState[]) {
      line.set(state);
      await pause(1_200);
    }
    line.set('open');
    await untilReadings(installation.pagesUrl, 'ok');
    await installation.stop('SIGKILL');
    installation = await start();

    await load.finish();
    const sent = load.sent();
    await until('the end of the backlog', () => reached(installation.pagesUrl, lastTimes(sent)), 90_000);
    await installation.stop();
    const store = await openInfluxReadings(address);
    const stored = await numbersIn(store);
    expect([...load.acknowledged].filter((n) => !stored.has(n))).toEqual([]);
    expect(stored.size).toBe(sent);
    expect((await store.size()).rows).toBe(sent);
    expect(sent).toBeGreaterThan(5_000);
    await store.close();
    await Promise.all([line.close(), influx.remove(), broker.remove(), remove()]);
  },
  240_000,
);

/** True once every probe has told its newest reading. */
async function reached(pagesUrl: string, times: ReadonlyMap<string, number>): Promise<true | undefined> {
  const { probes } = (await (await fetch(`${pagesUrl}/api/probes`)).json()) as {
    probes: { probe: string; lastAt: string | null }[];
  };
  const told = new Map(probes.map(({ probe, lastAt }) => [probe, Date.parse(lastAt ?? '')]));
  return [...times].every(([probe, atMs]) => told.get(probe) === atMs) || undefined;
}

test('a server whose InfluxDB is not there stops with one line that names the variable', async () => {
  const { dataDir, remove } = await makeDataDir();
  await expect(spawnInstallation(dataDir, { environment: { READINGS_URL: 'http://127.0.0.1:9' } })).rejects.toThrow(
    /^BRANHEARTH_READINGS_URL must be the address of an InfluxDB that answers; it was "http:[^\n]*\(it cannot be reached: ECONNREFUSED\)$/,
  );
  await remove();
});
