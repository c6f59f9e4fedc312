// The data folder's disk runs full under a real publisher: nothing more is acknowledged, it is said, and once there is
// room everything goes on by itself with nothing lost and nothing twice. For readings, journal and photos alike.
import { join } from 'node:path';
import sharp from 'sharp';
import { afterEach, describe, expect, test } from 'vitest';
import type { Health } from '../../shared/contracts/health.ts';
import { hasMosquitto, startMosquitto } from '../helpers/mosquitto.ts';
import { canMount, mountSmallDisk } from '../helpers/small-disk.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { storedCount } from '../helpers/stored-count.ts';
import { until } from '../helpers/until.ts';
import { startLoad, storedNumbers } from './kill-load.ts';

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

const healthOf = async (installation: SpawnedInstallation) =>
  (await (await fetch(`${installation.pagesUrl}/api/health`)).json()) as Health;
const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

async function send(
  installation: SpawnedInstallation,
  method: string,
  path: string,
  body: object | Buffer,
): Promise<number> {
  const isPicture = Buffer.isBuffer(body);
  const answer = await fetch(`${installation.pagesUrl}${path}`, {
    method,
    headers: { 'content-type': isPicture ? 'image/jpeg' : 'application/json' },
    body: isPicture ? new Uint8Array(body) : JSON.stringify(body),
  });
  await answer.arrayBuffer();
  return answer.status;
}

const entriesPath = '/api/piles/first-bed/entries';
let entries = 0;
function entry() {
  entries += 1;
  return { id: `entry-number-${entries}`, what: { kind: 'note' }, note: 'x'.repeat(1_500) };
}

/** Grain, so that it stays large when it is drawn anew. */
const picture = () => {
  const noise = { type: 'gaussian', mean: 120, sigma: 60 } as const;
  const create = { width: 1600, height: 1200, channels: 3, background: '#c9402a', noise } as const;
  return sharp({ create }).jpeg({ quality: 95 }).toBuffer();
};

describe.skipIf(!canMount)('a full disk', () => {
  for (const kind of ['embedded', 'mosquitto'] as const) {
    test.skipIf(kind === 'mosquitto' && !hasMosquitto)(
      `behind ${kind}: loses nothing that was acknowledged, says so, and recovers by itself`,
      async () => {
        const disk = mountSmallDisk(32);
        closing.push(() => disk.remove());
        const broker = kind === 'mosquitto' ? await startMosquitto() : undefined;
        closing.push(() => broker?.remove());
        const environment = { DISK_LOW: '4', ...(broker && { MQTT_URL: broker.url }) };
        const installation = await spawnInstallation(disk.folder, { environment });
        closing.push(() => installation.stop('SIGKILL'));
        const part = async (name: keyof Health['parts']) => (await healthOf(installation)).parts[name];
        await until('the broker', async () => (await part('broker')).state === 'ok' || undefined);
        await send(installation, 'POST', '/api/sites', { name: 'Saltmere Yard' });
        const bed = { id: 'first-bed', site: 'saltmere-yard', name: 'First bed', stage: 'bran' };
        expect(await send(installation, 'POST', '/api/piles', bed)).toBe(201);
        expect(await send(installation, 'POST', entriesPath, entry())).toBe(201);
        const photo = await picture();

        const load = startLoad(broker?.url ?? installation.mqttUrl, 40, 4);
        await until('the load to run', () => load.acknowledged.size > 500 || undefined);
        disk.fill();
        const isSaid = async () => /cannot be stored/.test((await part('broker')).detail) || undefined;
        await until('it to be said', isSaid);
        expect((await healthOf(installation)).ready).toBe(false);
        if (kind === 'embedded') {
          await pause(300); // what was committed before is acknowledged by now
          const before = load.acknowledged.size;
          await pause(1_500);
          expect(load.acknowledged.size).toBe(before);
        }
        await until('the disk to be seen', async () => (await part('disk')).state === 'down' || undefined);
        // A few entries may still fit where the journal has room of its own; then none does.
        const takesNone = async () => (await send(installation, 'POST', entriesPath, entry())) === 503 || undefined;
        await until('the journal to have no room', takesNone);
        expect(await send(installation, 'PUT', '/api/photos/photo-when-full', photo)).toBe(503);

        disk.free();
        const stoodAt = load.acknowledged.size;
        await until('acknowledgements', () => load.acknowledged.size > stoodAt + 500 || undefined);
        await until('all to be well', async () => (await healthOf(installation)).ready || undefined);
        expect(await send(installation, 'POST', entriesPath, entry())).toBe(201);
        expect(await send(installation, 'PUT', '/api/photos/photo-when-full', photo)).toBe(201);
        await until('the disk to be well', async () => (await part('disk')).state === 'ok' || undefined);

        await load.finish();
        const sent = load.sent();
        if (broker) await until('the backlog', async () => (await storedCount(installation)) >= sent || undefined);
        await installation.stop();
        expect(installation.child.exitCode).toBe(0);
        const stored = await storedNumbers(join(disk.folder, 'readings.db')); // throws for one that is there twice
        expect([...load.acknowledged].filter((n) => !stored.has(n))).toEqual([]);
        expect(stored.size).toBe(sent);
      },
      180_000,
    );
  }
});
