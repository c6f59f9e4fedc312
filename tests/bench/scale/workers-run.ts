/**
 * So many workers take the same load of eight sites, Mosquitto before them, InfluxDB behind: messages per second until all
 * are committed, processor time of each program for one, and what is missing. Probes are unclaimed: what judging costs is
 * measured by the live runs.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { beatMs } from '../../../server/cluster/worker.ts';
import { openInfluxReadings } from '../../../shared/store/influx/influx-readings.ts';
import { openPostgresJournal } from '../../../shared/store/journal/postgres-journal.ts';
import { startInflux } from '../../helpers/influxdb.ts';
import { startMosquitto } from '../../helpers/mosquitto.ts';
import { makeDataDir } from '../../helpers/open-test-server.ts';
import { startPostgres } from '../../helpers/postgres.ts';
import { type SpawnedInstallation, spawnInstallation } from '../../helpers/spawn-server.ts';
import { until } from '../../helpers/until.ts';
import type { PublisherTask } from '../ingest-publisher.ts';
import { childrenCalled, cpuSOf } from './cpu-time.ts';

export const messages = 200_000;
export const siteCount = 8;
const readingsPerMessage = 2;
const stillForMs = 15_000;

export interface WorkersRun {
  readonly workers: number;
  readonly msgsPerS: number;
  readonly lost: number;
  /** Processor time for one message [µs]. */
  readonly workerUs: number;
  readonly influxUs: number;
  readonly mosquittoUs: number;
  readonly publisherUs: number;
}

export async function workersRun(count: number): Promise<WorkersRun> {
  const [postgres, influx, mosquitto, folder] = await Promise.all([
    startPostgres(),
    startInflux(),
    startMosquitto(),
    makeDataDir(),
  ]);
  const workers: SpawnedInstallation[] = [];
  try {
    const address = await influx.newDatabase();
    const journalUrl = await postgres.database();
    const environment = {
      JOURNAL_URL: journalUrl,
      READINGS_URL: influx.url,
      READINGS_BUCKET: address.bucket,
      READINGS_GENERATION: '1',
      MQTT_URL: mosquitto.url,
      LOG_LEVEL: 'info',
      UNCLAIMED_PROBES: '100000',
    };
    for (let index = 0; index < count; index += 1) {
      workers.push(await spawnInstallation(folder.dataDir, { only: 'ingest', environment }));
    }
    await settle(journalUrl, count);

    const cpuS = () => ({
      worker: sum(workers.map(({ child }) => cpuSOf(child.pid))),
      influx: sum(childrenCalled('influxd').map(cpuSOf)),
      mosquitto: sum(childrenCalled('mosquitto').map(cpuSOf)),
    });
    const before = cpuS();
    const { publisher, done } = await startPublisher(mosquitto.port);
    const startMs = performance.now();
    let publisherS = 0;
    let committed = 0;
    let lastMs = startMs;
    while (committed < messages) {
      await sleep(100);
      const publisherNowS = cpuSOf(publisher.pid);
      if (publisherNowS > publisherS) publisherS = publisherNowS;
      const now = sum(await Promise.all(workers.map(committedBy))) / readingsPerMessage;
      if (now > committed) lastMs = performance.now();
      else if (performance.now() - lastMs > stillForMs) break;
      committed = now;
    }
    const after = cpuS();
    await Promise.race([done, sleep(stillForMs)]);
    publisher.kill();
    for (const one of workers) await one.stop();
    const store = await openInfluxReadings(address);
    const { rows } = await store.size();
    await store.close();
    const usPerMessage = (s: number) => Math.round((1e6 * s) / messages);
    return {
      workers: count,
      msgsPerS: Math.round((1_000 * committed) / (lastMs - startMs)),
      lost: messages - rows / readingsPerMessage,
      workerUs: usPerMessage(after.worker - before.worker),
      influxUs: usPerMessage(after.influx - before.influx),
      mosquittoUs: usPerMessage(after.mosquitto - before.mosquitto),
      publisherUs: usPerMessage(publisherS),
    };
  } finally {
    for (const one of workers) await one.stop('SIGKILL');
    await Promise.all([postgres.remove(), influx.remove(), mosquitto.remove(), folder.remove()]);
  }
}

/** Every site held, about as many by each worker, heard by a session of its own, and whoever hears for all knows so. */
async function settle(journalUrl: string, count: number): Promise<void> {
  const journal = await openPostgresJournal(journalUrl);
  await journal.leases.know(Array.from({ length: siteCount }, (_, index) => `saltmere-${index}`));
  const look = async () => {
    const { leases } = await journal.leases.table();
    const held = new Map<string, number>();
    for (const { holder } of leases) if (holder !== null) held.set(holder, (held.get(holder) ?? 0) + 1);
    const shares = [...held.values()];
    const ready =
      leases.length > siteCount && leases.every(({ holder, heard, site }) => holder && (heard || site === '+'));
    const fair = shares.length === count && Math.max(...shares) - Math.min(...shares) <= 1;
    return (ready && fair) || undefined;
  };
  try {
    await until(`${count} workers to share ${siteCount} sites`, look, 60_000);
    // Who hears for all learns with its next beat which sites it may leave alone. Till then it takes them in as well:
    // both workers would count the same readings as kept, and the run would end before the last were published.
    await sleep(2 * beatMs);
  } finally {
    await journal.close();
  }
}

/** @returns `done` once the broker has acknowledged every message. */
async function startPublisher(port: number): Promise<{ publisher: ChildProcess; done: Promise<unknown> }> {
  const task: PublisherTask = { port, messages, connections: 4, probes: 400, startMs: Date.now() - 86_400_000 };
  const publisher = fork(fileURLToPath(new URL('../ingest-publisher.js', import.meta.url)), [JSON.stringify(task)]);
  const done = new Promise((resolve) => publisher.once('exit', resolve));
  await new Promise<void>((resolve) => {
    publisher.on('message', (message) => message === 'go' && resolve());
  });
  return { publisher, done };
}

async function committedBy({ pagesUrl }: SpawnedInstallation): Promise<number> {
  const text = await (await fetch(`${pagesUrl}/metrics`)).text();
  return Number(/^branhearth_readings_stored_total (\d+)/m.exec(text)?.[1] ?? 0);
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
