import { join } from 'node:path';
import { expect, test } from 'vitest';
import { freePort } from '../helpers/free-port.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { spawnInstallation } from '../helpers/spawn-server.ts';
import { startLoad, storedNumbers } from './kill-load.ts';

const kills = 20;

test(`every acknowledged reading is there once after ${kills} kills of a house with its embedded broker`, async () => {
  const { dataDir, remove } = await makeDataDir();
  const mqttPort = String(await freePort());
  const start = () => spawnInstallation(dataDir, { environment: { MQTT_PORT: mqttPort } });
  let installation = await start();
  const load = startLoad(installation.mqttUrl, 200);
  for (let kill = 0; kill < kills; kill++) {
    const before = load.acknowledged.size;
    await new Promise((resolve) => setTimeout(resolve, 150 + 37 * (kill % 7)));
    await installation.stop('SIGKILL');
    installation = await start();
    if (kill === kills - 1) expect(load.acknowledged.size).toBeGreaterThan(before);
  }
  await load.finish();
  await installation.stop();
  const stored = await storedNumbers(join(dataDir, 'readings.db'));
  const lost = [...load.acknowledged].filter((n) => !stored.has(n));
  expect(lost).toEqual([]);
  expect(load.acknowledged.size).toBeGreaterThan(200); // the load was real, however slow the machine
  // Once everything in flight was acknowledged, everything that was sent is there.
  expect(stored.size).toBe(load.sent());
  await remove();
});
