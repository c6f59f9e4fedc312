/**
 * The built program under every line of Node that people have, beside the one this suite runs on: from its start to a backup that
 * is put back.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { connectAsync } from 'mqtt';
import { describe, expect, test } from 'vitest';
import type { ProbesAnswer } from '../../shared/contracts/probes.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';

const lines = [22, 24, 26].map((line) => ({
  line: `Node ${line}`,
  program: resolve(`tests/node-lines/node_modules/node-${line}/bin/node`),
}));
const own = { line: `this machine’s Node ${process.versions.node.split('.')[0]}`, program: process.execPath };

async function readingOf(server: SpawnedInstallation): Promise<number | undefined> {
  const { probes } = (await (await fetch(`${server.pagesUrl}/api/probes`)).json()) as ProbesAnswer;
  return probes.find(({ probe }) => probe === 'p1')?.last.temperatureC ?? undefined;
}

async function publish(server: SpawnedInstallation, temperature: number): Promise<void> {
  const probe = await connectAsync(server.mqttUrl);
  // Acknowledged only once it is on disk.
  await probe.publishAsync('piles/yard/p1/reading', JSON.stringify({ temperature }), { qos: 1 });
  await probe.endAsync();
}

async function page(server: SpawnedInstallation): Promise<void> {
  const home = await (await fetch(server.pagesUrl)).text();
  const [, script = ''] = /src="([^"]+\.js)"/.exec(home) ?? [];
  const answer = await fetch(new URL(script, server.pagesUrl));
  expect([answer.status, answer.headers.get('content-type')]).toEqual([200, expect.stringContaining('javascript')]);
}

function command(program: string, name: string, ...given: string[]): string {
  const { status, stdout, stderr } = spawnSync(program, [resolve(`.build/server/backup/${name}.js`), ...given], {
    env: { PATH: process.env.PATH },
    encoding: 'utf8',
  });
  expect([status, stderr]).toEqual([0, '']);
  return stdout;
}

describe.each([own, ...lines])('under $line', ({ program }) => {
  test.skipIf(!existsSync(program))(
    'the program starts without a warning, takes readings, shows pages, outlives a kill, is backed up while it runs, put back, and stops',
    async () => {
      const folder = await mkdtemp(join(tmpdir(), 'branhearth-node-'));
      const running: SpawnedInstallation[] = [];
      const start = async (dataDir: string) => {
        const server = await spawnInstallation(dataDir, { program });
        running.push(server);
        return server;
      };
      try {
        const first = await start(join(folder, 'data'));
        expect(first.output()).not.toMatch(/deprecat|ExperimentalWarning|"level":[456]0/i);
        await publish(first, 41.5);
        await until('the reading', async () => ((await readingOf(first)) === 41.5 ? true : undefined));
        await page(first);
        const added = await fetch(`${first.pagesUrl}/api/sites`, {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify({ id: 'yard', name: 'Yard' }),
        });
        expect(added.status).toBe(201);
        await first.stop('SIGKILL');

        const second = await start(join(folder, 'data'));
        expect(await readingOf(second)).toBe(41.5);
        const kept = join(folder, 'kept.tar.gz');
        expect(command(program, 'backup', kept, '--from', join(folder, 'data'))).toMatch(/read back and found whole/);
        await publish(second, 42.5);
        const ended = new Promise((resolved) => second.child.once('exit', resolved));
        second.child.kill('SIGTERM');
        expect(await ended).toBe(0);

        expect(command(program, 'restore', kept, '--into', join(folder, 'put-back'))).toMatch(/each file as it was/);
        const third = await start(join(folder, 'put-back'));
        expect(await readingOf(third)).toBe(41.5);
        expect(third.output()).not.toMatch(/"level":[456]0/);
      } finally {
        for (const server of running) await server.stop('SIGKILL');
        await rm(folder, { recursive: true, force: true });
      }
    },
  );
});
