import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import type { Reading } from '../../shared/reading.ts';
import { openInfluxReadings } from '../../shared/store/influx/influx-readings.ts';
import { openSqliteReadings } from '../../shared/store/readings/sqlite-readings.ts';
import { hasTestInflux, openTestInflux, readingsEnvironment } from '../helpers/given-influx.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const program = fileURLToPath(new URL('../../.build/server/move/main.js', import.meta.url));
const probes = 40;
const minutes = 10_000;
const total = probes * minutes;

function start(
  args: string[],
  environment: Record<string, string> = {},
): { child: ChildProcess; ended: Promise<{ code: number | null; said: string }> } {
  const child = spawn(process.execPath, [program, ...args], {
    env: {
      PATH: process.env.PATH,
      ...Object.fromEntries(Object.entries(environment).map(([name, value]) => [`BRANHEARTH_${name}`, value])),
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.on('data', (chunk: Buffer) => {
      said += chunk.toString();
    });
  }
  return { child, ended: new Promise((resolve) => child.once('close', (code) => resolve({ code, said }))) };
}

const whole = new RegExp(`${probes} series, 400,000 readings there, 400,000 here\nBoth have the same\n$`);

test.skipIf(!hasTestInflux)(
  'npm run move-readings takes a folder into InfluxDB and back, each killed in the middle and run again',
  async () => {
    expect(existsSync(program), 'compile first: node server/build.mjs').toBe(true);
    const [home, back, influx] = [await makeDataDir(), await makeDataDir(), await openTestInflux()];
    const address = await influx.newDatabase();
    // Where it is, is said by the command itself.
    const { READINGS_URL: _, ...environment } = readingsEnvironment(address);
    const store = openSqliteReadings(join(home.dataDir, 'readings.db'));
    const firstMs = Date.UTC(2031, 2, 30);
    for (let probe = 0; probe < probes; probe++) {
      await store.append(
        Array.from(
          { length: minutes },
          (_, minute): Reading => ({
            site: 'saltmere-yard',
            probe: `p${probe}`,
            quantity: 'temperature',
            atMs: firstMs + minute * 60_000,
            value: ((minute * 7 + probe) % 400) / 10,
          }),
        ),
      );
    }
    await store.close();

    const there = ['--from', home.dataDir, '--to', influx.url];
    const first = start(there, environment);
    await until('some readings there', async () => {
      const count = /"values":\[\[\d*"?[^,]*,(\d+)/.exec(
        await influx.ask('SELECT count(value) FROM temperature', address),
      )?.[1];
      return Number(count ?? 0) > total / 10 || undefined;
    });
    first.child.kill('SIGKILL');
    await first.ended;
    const halfway = await openInfluxReadings(address);
    expect((await halfway.size()).rows).toBeLessThan(total);
    await halfway.close();
    expect(await start(there, environment).ended).toMatchObject({ code: 0, said: expect.stringMatching(whole) });
    expect(await start(there, environment).ended).toMatchObject({ code: 0, said: expect.stringMatching(whole) });

    const returning = ['--from', influx.url, '--to', back.dataDir];
    const second = start(returning, environment);
    await until('some readings here', () => {
      const wal = statSync(join(back.dataDir, 'readings.db-wal'), { throwIfNoEntry: false });
      return (wal?.size ?? 0) > 1_000_000 || undefined;
    });
    second.child.kill('SIGKILL');
    await second.ended;
    const begun = openSqliteReadings(join(back.dataDir, 'readings.db'));
    expect((await begun.size()).rows).toBeLessThan(total);
    await begun.close();
    expect(await start(returning, environment).ended).toMatchObject({ code: 0, said: expect.stringMatching(whole) });

    // one reading with another value: it says which, and fails
    const changed = await openInfluxReadings(address);
    await changed.append([
      { site: 'saltmere-yard', probe: 'p7', quantity: 'temperature', atMs: firstMs + 1, value: 3 },
    ]);
    await changed.close();
    const differs = await start(['--from', back.dataDir, '--to', influx.url, '--each'], environment).ended;
    expect(differs.code).toBe(1);
    expect(differs.said).toContain('saltmere-yard/p7 temperature: 10,000 there, 10,001 here');
    expect(differs.said).toMatch(/40 series, 400,000 readings there, 400,001 here\n1 series differ\n$/);
    await Promise.all([influx.remove(), home.remove(), back.remove()]);
  },
  120_000,
);

test('npm run move-readings says what is wrong with a place', async () => {
  const { dataDir, remove } = await makeDataDir();
  const nowhere = await start(['--from', dataDir, '--to', join(dataDir, 'other')]).ended;
  expect(nowhere).toEqual({ code: 1, said: `There are no readings in ${dataDir}: it has no readings.db\n` });
  expect(await start(['--from', dataDir]).ended).toMatchObject({
    code: 2,
    said: expect.stringMatching(/^npm run move-readings/),
  });
  await remove();
});
