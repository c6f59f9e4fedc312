/**
 * So many workers take the same load of eight sites as fast as they can: messages per second until all are committed,
 * processor time of each program for one, and what is missing. Probes are unclaimed: what watching costs is measured by
 * watched-run.ts.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import type { PublisherTask } from '../ingest-publisher.ts';
import { cpuSOf } from './cpu-time.ts';
import { type FarmCpu, openWorkerFarm } from './worker-farm.ts';

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
  readonly postgresUs: number;
  readonly influxUs: number;
  readonly mosquittoUs: number;
  readonly publisherUs: number;
}

export async function workersRun(count: number): Promise<WorkersRun> {
  const farm = await openWorkerFarm(
    count,
    Array.from({ length: siteCount }, (_, index) => `saltmere-${index}`),
  );
  try {
    const before = farm.cpu();
    const { publisher, done } = await startPublisher(farm.mqtt.port);
    const startMs = performance.now();
    let publisherS = 0;
    let committed = 0;
    let lastMs = startMs;
    while (committed < messages) {
      await sleep(100);
      const publisherNowS = cpuSOf(publisher.pid);
      if (publisherNowS > publisherS) publisherS = publisherNowS;
      const now = (await farm.kept()) / readingsPerMessage;
      if (now > committed) lastMs = performance.now();
      else if (performance.now() - lastMs > stillForMs) break;
      committed = now;
    }
    const after = farm.cpu();
    await Promise.race([done, sleep(stillForMs)]);
    publisher.kill();
    const rows = await farm.stop();
    const usOf = (program: keyof FarmCpu) => Math.round((1e6 * (after[program] - before[program])) / messages);
    return {
      workers: count,
      msgsPerS: Math.round((1_000 * committed) / (lastMs - startMs)),
      lost: messages - rows / readingsPerMessage,
      workerUs: usOf('worker'),
      postgresUs: usOf('postgres'),
      influxUs: usOf('influx'),
      mosquittoUs: usOf('mosquitto'),
      publisherUs: Math.round((1e6 * publisherS) / messages),
    };
  } finally {
    await farm.remove();
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
