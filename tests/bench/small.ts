/**
 * `npm run bench -- small [day|year]`: the built program on a machine as small as those in sheds: one core, 512 MB, a disk as
 * slow as a card (10 MB/s, 100 writes/s), 40 probes on ten piles.
 *
 * Options: the part to run, both unless given; BRANHEARTH_BENCH_MIN, minutes that readings come in (10).
 * Figures: start and memory; bytes written to disk in a day (what the kernel counts for the process, from the minutes
 * measured); with a year of readings every five minutes: start, a chart of the year, a backup.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { statSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Reading } from '../../shared/reading.ts';
import { openSqliteReadings } from '../../shared/store/readings/sqlite-readings.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { startPacedPublisher } from './scale/paced-publisher.ts';
import { residentMb } from './scale/resident.ts';
import { type FarmProbe, layScaleFarm, scaleProbes, tempAtC } from './scale/scale-farm.ts';
import { type Confined, confine } from './small/confined.ts';
import { printTable } from './table.ts';

const bounds = { memoryMb: 512, bytesPerS: 10_000_000, writesPerS: 100 };
const warmS = 60;
const measureMin = Number(process.env.BRANHEARTH_BENCH_MIN ?? 10);
const yearDays = 365;
const everyMs = 300_000;
const backupPath = fileURLToPath(new URL('../../server/backup/backup.js', import.meta.url));

const parts: Record<string, (probes: readonly FarmProbe[]) => Promise<Record<string, number>>> = { day, year };

export async function run(part?: string): Promise<Record<string, number>> {
  const asked = part === undefined ? Object.values(parts) : [parts[part]];
  const figures: Record<string, number> = {};
  for (const one of asked) {
    if (!one) throw new Error(`Cannot run part ${part} as the parts are ${Object.keys(parts).join(', ')}`);
    Object.assign(figures, await one(scaleProbes(40)));
  }
  return figures;
}

/** A farm at work: what it takes and what it writes. */
async function day(probes: readonly FarmProbe[]): Promise<Record<string, number>> {
  return onSmallMachine(probes, async ({ server, startS, confined }) => {
    const publisher = await startPacedPublisher(server.mqttUrl, probes, () => undefined);
    await seconds(warmS);
    const [from, sentBefore] = [await writtenBytes(server.child), publisher.counts().sent];
    await seconds(measureMin * 60);
    const [to, sentThen] = [await writtenBytes(server.child), publisher.counts().sent];
    const rssMb = await residentMb(server.child.pid);
    await publisher.stop();
    const { sent, acked } = publisher.counts();
    const perDay = ((to - from) * msPerDay) / (measureMin * 60_000);
    printTable([
      ['start', startS, 's, from its command to its pages, a week of hourly readings kept'],
      ['resident', rssMb, 'MB, with 40 probes a minute'],
      ['most in use', confined.mostMb(), 'MB, files in cache included'],
      ['written', perDay / 1e6, 'MB a day'],
      ['a message', (to - from) / (sentThen - sentBefore), 'bytes written'],
      ['lost', sent - acked, 'messages without an acknowledgement'],
    ]);
    return { start_s: round(startS), rss_mb: rssMb, written_mb_a_day: round(perDay / 1e6), not_acked: sent - acked };
  });
}

/** The same with a year of readings. */
async function year(probes: readonly FarmProbe[]): Promise<Record<string, number>> {
  return onSmallMachine(
    probes,
    async ({ server, startS, confined, dataDir }) => {
      const [probe] = probes;
      const nowMs = Date.now();
      const range = new URLSearchParams({
        from: new Date(nowMs - yearDays * msPerDay).toISOString(),
        to: new Date(nowMs).toISOString(),
      });
      const chart = await timed(async () => {
        const answer = await fetch(`${server.pagesUrl}/api/piles/${probe?.pileId}/series?${range}`);
        if (!answer.ok) throw new Error(`The chart was refused: ${answer.status} ${await answer.text()}`);
        await answer.arrayBuffer();
      });
      const rssMb = await residentMb(server.child.pid);
      const file = join(dataDir, '..', `small-${process.pid}.tar.gz`);
      const backupS = await timed(() => backUp(confined, dataDir, file));
      const readingsMb = statSync(join(dataDir, 'readings.db')).size / 1e6;
      printTable([
        ['readings', (probes.length * yearDays * msPerDay) / everyMs, `in a file of ${Math.round(readingsMb)} MB`],
        ['start', startS, 's, with a year of readings'],
        ['resident', rssMb, 'MB, after a chart of the year'],
        ['most in use', confined.mostMb(), 'MB, files in cache included, backup beside the server too'],
        ['chart', chart, 's, of the whole year'],
        ['backup', backupS, `s, beside the server, into ${Math.round(statSync(file).size / 1e6)} MB`],
      ]);
      return {
        year_start_s: round(startS),
        year_rss_mb: rssMb,
        year_chart_s: round(chart),
        year_backup_s: round(backupS),
      };
    },
    layYear,
  );
}

interface AtWork {
  readonly server: SpawnedInstallation;
  readonly startS: number;
  readonly confined: Confined;
  readonly dataDir: string;
}

async function onSmallMachine<Result>(
  probes: readonly FarmProbe[],
  work: (at: AtWork) => Promise<Result>,
  lay?: (dataDir: string, probes: readonly FarmProbe[]) => Promise<void>,
): Promise<Result> {
  const { dataDir, remove } = await makeDataDir();
  const confined = confine(dataDir, bounds);
  console.log(confined.says);
  try {
    await layScaleFarm(dataDir, probes, Date.now());
    await lay?.(dataDir, probes);
    const startedMs = performance.now();
    const server = await spawnInstallation(dataDir, {
      environment: { LOG_LEVEL: 'info' },
      nodeArguments: ['--max-semi-space-size=4'],
      patienceMs: 600_000,
      onSpawn: (pid) => confined.take(pid),
    });
    try {
      const startS = (performance.now() - startedMs) / 1_000;
      return await work({ server, startS, confined, dataDir });
    } finally {
      await server.stop();
    }
  } finally {
    confined.remove();
    await remove();
  }
}

async function layYear(dataDir: string, probes: readonly FarmProbe[]): Promise<void> {
  const store = openSqliteReadings(join(dataDir, 'readings.db'));
  const beginMs = Math.floor(Date.now() / everyMs) * everyMs - (yearDays + 8) * msPerDay;
  let batch: Reading[] = [];
  for (let at = 0; at < (yearDays * msPerDay) / everyMs; at += 1) {
    const atMs = beginMs + at * everyMs;
    const hour = ((atMs - beginMs) / msPerHour) % 336;
    for (const { site, probe, position } of probes)
      batch.push({ site, probe, quantity: 'temperature', atMs, value: tempAtC(position, hour) });
    if (batch.length < 8_000) continue;
    await store.append(batch);
    batch = [];
  }
  await store.append(batch);
  await store.close();
}

async function backUp(confined: Confined, dataDir: string, file: string): Promise<void> {
  const child = spawn(process.execPath, [backupPath, file, '--from', dataDir], { stdio: 'inherit' });
  if (child.pid !== undefined) confined.take(child.pid);
  const code = await new Promise((resolve) => child.once('exit', resolve));
  if (code !== 0) throw new Error(`The backup ended with ${code}`);
}

/** What a process had sent to the disk (Linux, proc(5)). */
async function writtenBytes({ pid }: ChildProcess): Promise<number> {
  return Number(/^write_bytes: (\d+)$/m.exec(await readFile(`/proc/${pid}/io`, 'utf8'))?.[1]);
}

async function timed(work: () => Promise<void>): Promise<number> {
  const startMs = performance.now();
  await work();
  return (performance.now() - startMs) / 1_000;
}

const seconds = (s: number) => new Promise((resolve) => setTimeout(resolve, s * 1_000));
const round = (figure: number) => Math.round(figure * 10) / 10;
