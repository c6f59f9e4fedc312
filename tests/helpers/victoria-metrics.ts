/**
 * Another maker's server that takes /api/v2/write, on a free port, with a folder of its own: what it understands of our
 * lines it understands without a word of our code. It never leaves a process or a folder behind, or uses one that the
 * system runs.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { z } from 'zod';
import { freePort } from './free-port.ts';
import { until } from './until.ts';

const program = '/usr/bin/victoria-metrics';

export const hasVictoriaMetrics = existsSync(program);
if (!hasVictoriaMetrics) {
  console.warn(
    '\n*** NOT TESTED with an independent taker of /api/v2/write: victoria-metrics is not installed (Debian: apt-get install victoria-metrics) ***\n',
  );
}

/** Ended with this process, however it ends. */
const runningNow = new Set<ChildProcess>();
process.once('exit', () => {
  for (const child of runningNow) child.kill('SIGKILL');
});

/** A line of its own export: https://docs.victoriametrics.com/#how-to-export-data-in-json-line-format */
const exportedSchema = z.object({
  metric: z.record(z.string(), z.string()),
  values: z.array(z.number()),
  timestamps: z.array(z.number()),
});
type Exported = z.infer<typeof exportedSchema>;

export interface TestVictoriaMetrics {
  readonly url: string;
  /** Everything it has. */
  everything(): Promise<Exported[]>;
  remove(): Promise<void>;
}

export async function startVictoriaMetrics(): Promise<TestVictoriaMetrics> {
  const folder = await mkdtemp(join(tmpdir(), 'branhearth-victoria-'));
  const port = await freePort();
  const url = `http://127.0.0.1:${port}`;
  const child = spawn(
    program,
    [
      `-storageDataPath=${folder}`,
      `-httpListenAddr=127.0.0.1:${port}`,
      '-retentionPeriod=10y',
      '-dedup.minScrapeInterval=1ms', // the same time again is one
      '-memory.allowedPercent=5',
    ],
    { stdio: 'ignore' },
  );
  runningNow.add(child);
  await until('VictoriaMetrics', async () => {
    if (child.exitCode !== null) throw new Error(`Cannot start victoria-metrics: it ended with ${child.exitCode}`);
    return (await fetch(`${url}/health`).catch(() => undefined))?.ok || undefined;
  });
  return {
    url,
    async everything() {
      await fetch(`${url}/internal/force_flush`);
      const query = new URLSearchParams({ 'match[]': '{__name__!=""}', start: '0', reduce_mem_usage: '0' });
      const text = await (await fetch(`${url}/api/v1/export?${query}`)).text();
      return text
        .split('\n')
        .filter((line) => line !== '')
        .map((line) => exportedSchema.parse(JSON.parse(line)));
    },
    async remove() {
      const ended = new Promise((resolve) => child.once('exit', resolve));
      child.kill('SIGKILL');
      await ended;
      runningNow.delete(child);
      await rm(folder, { recursive: true, force: true });
    },
  };
}
