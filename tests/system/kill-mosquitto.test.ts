import { join } from 'node:path';
import { expect, test } from 'vitest';
import { hasMosquitto, startMosquitto } from '../helpers/mosquitto.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';
import { lastTimes, startLoad, storedNumbers } from './kill-load.ts';

const kills = 20;

test.skipIf(!hasMosquitto)(
  `every reading that Mosquitto took is there once after ${kills} kills of the server behind it`,
  async () => {
    const { dataDir, remove } = await makeDataDir();
    const broker = await startMosquitto();
    const start = () => spawnInstallation(dataDir, { environment: { MQTT_URL: broker.url } });
    let installation = await start();
    // The subscription must stand before the first reading: before it nobody asked the broker to keep any.
    await until('the subscription', async () => (await stateOfBroker(installation.pagesUrl)) === 'ok' || undefined);
    const load = startLoad(broker.url, 40, 10);
    for (let kill = 0; kill < kills; kill++) {
      await new Promise((resolve) => setTimeout(resolve, 150 + 37 * (kill % 7)));
      await installation.stop('SIGKILL');
      installation = await start();
    }
    await load.finish();
    const sent = load.sent();
    // What the broker still keeps for the server comes by and by, each probe's readings in their order.
    await until('the end of the backlog', () => reached(installation.pagesUrl, lastTimes(sent)), 90_000);
    await installation.stop();
    const stored = await storedNumbers(join(dataDir, 'readings.db'));
    const lost = [...load.acknowledged].filter((n) => !stored.has(n));
    expect(lost).toEqual([]);
    expect(stored.size).toBe(sent);
    expect(sent).toBeGreaterThan(5000);
    await broker.remove();
    await remove();
  },
  180_000,
);

async function stateOfBroker(pagesUrl: string): Promise<string> {
  const health = (await (await fetch(`${pagesUrl}/api/health`)).json()) as { parts: { broker: { state: string } } };
  return health.parts.broker.state;
}

/** True once every probe has told its newest reading. */
async function reached(pagesUrl: string, times: ReadonlyMap<string, number>): Promise<true | undefined> {
  const { probes } = (await (await fetch(`${pagesUrl}/api/probes`)).json()) as {
    probes: { probe: string; lastAt: string | null }[];
  };
  const told = new Map(probes.map(({ probe, lastAt }) => [probe, Date.parse(lastAt ?? '')]));
  return [...times].every(([probe, atMs]) => told.get(probe) === atMs) || undefined;
}
