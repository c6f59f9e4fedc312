import { join } from 'node:path';
import { expect, test } from 'vitest';
import { hasMosquitto, startMosquitto } from '../helpers/mosquitto.ts';
import { makeDataDir } from '../helpers/open-test-house.ts';
import { spawnHouse } from '../helpers/spawn-house.ts';
import { until } from '../helpers/until.ts';
import { startLoad, storedNumbers } from './kill-load.ts';

const kills = 20;

test.skipIf(!hasMosquitto)(
  `every reading that Mosquitto took is there once after ${kills} kills of the house behind it`,
  async () => {
    const { dataDir, remove } = await makeDataDir();
    const broker = await startMosquitto();
    const start = () => spawnHouse(dataDir, { environment: { MQTT_URL: broker.url } });
    let house = await start();
    // The subscription must stand before the first reading: before it nobody asked the broker to keep any.
    await until('the subscription', async () => (await stateOfBroker(house.pagesUrl)) === 'ok' || undefined);
    const load = startLoad(broker.url, 40);
    for (let kill = 0; kill < kills; kill++) {
      await new Promise((resolve) => setTimeout(resolve, 150 + 37 * (kill % 7)));
      await house.stop('SIGKILL');
      house = await start();
    }
    await load.finish();
    const sent = load.sent();
    // What the broker still keeps for the house comes by and by: nothing new for two seconds means that it is all here.
    await until('the backlog to end', () => quietFor(house.pagesUrl, 2_000), 60_000);
    await house.stop();
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

/** True once no reading was stored for a while. */
async function quietFor(pagesUrl: string, quietMs: number): Promise<true | undefined> {
  const before = await storedTotal(pagesUrl);
  await new Promise((resolve) => setTimeout(resolve, quietMs));
  return (await storedTotal(pagesUrl)) === before || undefined;
}

async function storedTotal(pagesUrl: string): Promise<number> {
  const metrics = await (await fetch(`${pagesUrl}/metrics`)).text();
  return Number(/^branhearth_readings_stored_total (\d+)/m.exec(metrics)?.[1]);
}
