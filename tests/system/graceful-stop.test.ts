// SIGTERM in the middle of everything: what was acknowledged is kept and judged, pages' streams end, the exit code is 0.
import { mkdtemp, rm } from 'node:fs/promises';
import { connect as connectTcp, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync } from 'mqtt';
import { afterEach, expect, test } from 'vitest';
import { openSqliteJournal } from '../../shared/store/journal/sqlite-journal.ts';
import { openSqliteReadings } from '../../shared/store/readings/sqlite-readings.ts';
import { spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

function hang(url: string, ...bytes: (string | number[])[]): Socket {
  const { hostname, port } = new URL(url);
  const socket = connectTcp(Number(port), hostname);
  socket.on('error', () => {});
  closing.push(() => socket.destroy());
  for (const some of bytes) socket.write(typeof some === 'string' ? some : Buffer.from(some));
  socket.pause();
  return socket;
}

test('SIGTERM under load, with a page open and clients that hang: nothing acknowledged is lost or unjudged, exit code 0', async () => {
  const dataDir = await mkdtemp(join(tmpdir(), 'branhearth-stop-'));
  closing.push(() => rm(dataDir, { recursive: true }));
  const installation = await spawnInstallation(dataDir);
  closing.push(() => installation.stop('SIGKILL'));
  const post = async (path: string, body: object) => {
    const headers = { 'content-type': 'application/json' };
    const answer = await fetch(`${installation.pagesUrl}${path}`, {
      method: 'POST',
      headers,
      body: JSON.stringify(body),
    });
    expect(answer.ok, await answer.clone().text()).toBe(true);
    return (await answer.json()) as { id: string };
  };
  await post('/api/sites', { name: 'Saltmere Yard' });
  const pile = await post('/api/piles', { site: 'saltmere-yard', id: 'first-bed', name: 'First bed', stage: 'bran' });

  const client = await connectAsync(installation.mqttUrl, { reconnectPeriod: 0 });
  client.on('error', () => {});
  closing.push(() => client.endAsync(true));
  const publish = (n: number, timeMs: number) =>
    client.publishAsync(
      'piles/saltmere-yard/p1/reading',
      JSON.stringify({ temperature: 30 + (n % 50) / 10, time: timeMs }),
      { qos: 1 },
    );
  const firstMs = Date.now();
  await publish(0, firstMs);
  await post('/api/probes/saltmere-yard/p1/claim', { pileId: pile.id, position: 'core' });

  hang(installation.mqttUrl, [0x10]); // the first byte of a CONNECT
  hang(
    installation.mqttUrl,
    [0x10, 13, 0, 4, 0x4d, 0x51, 0x54, 0x54, 4, 2, 0, 0, 0, 1, 0x78],
    [0x82, 6, 0, 1, 0, 1, 0x23, 0],
  );
  hang(installation.pagesUrl, 'POST /api/sites HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 500\r\n\r\n{');
  const live = await fetch(`${installation.pagesUrl}/api/live`);
  const streamed = live.text().then(
    () => 'ended',
    () => 'ended',
  );

  const acknowledged = new Set<number>();
  let n = 1;
  let going = true;
  const lines = Array.from({ length: 200 }, async () => {
    while (going) {
      const timeMs = firstMs + n++;
      const kept = await publish(n, timeMs).then(
        () => true,
        () => false,
      );
      if (kept) acknowledged.add(timeMs);
      else going = false;
    }
  });
  await until('the load to run', () => acknowledged.size > 2_000 || undefined);
  const exited = new Promise<number | null>((resolve) => installation.child.once('exit', (code) => resolve(code)));
  installation.child.kill('SIGTERM');
  expect(await exited).toBe(0);
  going = false;
  await client.endAsync(true);
  await Promise.all(lines);
  expect(await streamed).toBe('ended');

  const readings = await openSqliteReadings(join(dataDir, 'readings.db'));
  const series = [{ site: 'saltmere-yard', probe: 'p1', quantity: 'temperature' as const }];
  const stored = new Set((await readings.rows(series, 0, firstMs + 86_400_000, 10_000_000)).map(({ atMs }) => atMs));
  await readings.close();
  expect([...acknowledged].filter((timeMs) => !stored.has(timeMs))).toEqual([]);
  const journal = await openSqliteJournal(join(dataDir, 'journal.db'));
  const place = await journal.watch.get(pile.id);
  await journal.close();
  expect(place?.throughMs).toBe(Math.max(...stored));
});
