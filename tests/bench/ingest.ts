/**
 * QoS 1 messages per second into the committed store.
 *
 * Mosquitto with the configuration we give people, a publisher in a process of its own, loopback only.
 * Figures: msgs_per_s of our whole ingest into SQLite, of a subscriber that does nothing, their ratio, and what was lost;
 * the same for the embedded broker. Medians of three runs, taken in turn.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { connectAsync } from 'mqtt';
import type { IngestOptions } from '../../ingest/ingest.ts';
import { startIngest } from '../../ingest/start-ingest.ts';
import { liveClock } from '../../shared/clock.ts';
import { openSqliteReadings } from '../../shared/store/readings/sqlite-readings.ts';
import { startMosquitto } from '../helpers/mosquitto.ts';
import type { PublisherTask } from './ingest-publisher.ts';

const messages = 200_000;
const readingsPerMessage = 2;
const probes = 400;
const connections = 4;
const rounds = 3;
/** A run that stands still so long has lost what is missing. */
const patienceMs = 5_000;

interface Run {
  readonly msgsPerS: number;
  readonly lost: number;
  readonly rssMb: number;
}

export async function run(): Promise<Record<string, number>> {
  const broker = await startMosquitto();
  const noop: Run[] = [];
  const outside: Run[] = [];
  const embedded: Run[] = [];
  try {
    for (let round = 0; round < rounds; round += 1) {
      noop.push(await runNoop(broker.port));
      outside.push(await runIngest({ kind: 'outside', url: broker.url, clientId: `bench-ingest-${round}` }));
      embedded.push(await runIngest({ kind: 'embedded', port: 0, host: '127.0.0.1' }));
    }
  } finally {
    await broker.remove();
  }
  const rows = {
    'Mosquitto -> subscriber that does nothing': noop,
    'Mosquitto -> committed store': outside,
    'embedded broker -> committed store': embedded,
  };
  console.log(
    `${messages} messages of 120 bytes at QoS 1, ${readingsPerMessage} readings each, ${probes} probes, ${rounds} runs each`,
  );
  console.table(
    Object.fromEntries(
      Object.entries(rows).map(([name, runs]) => [
        name,
        {
          'msgs/s (median)': Math.round(medianRate(runs)),
          'each run': runs.map(({ msgsPerS }) => Math.round(msgsPerS)).join(' '),
          lost: lostOf(runs),
        },
      ]),
    ),
  );
  return {
    // Of each round by itself, as the two runs of a round find the machine equally busy; the median of those.
    ratio_noop: round3(median(outside.map((run, round) => run.msgsPerS / (noop[round]?.msgsPerS ?? Number.NaN)))),
    msgs_per_s: Math.round(medianRate(outside)),
    noop_msgs_per_s: Math.round(medianRate(noop)),
    embedded_msgs_per_s: Math.round(medianRate(embedded)),
    readings_per_message: readingsPerMessage,
    rss_mb: Math.max(...[...outside, ...embedded].map(({ rssMb }) => rssMb)),
    lost: lostOf(outside) + lostOf(embedded),
    noop_lost: lostOf(noop),
  };
}

async function runNoop(port: number): Promise<Run> {
  const client = await connectAsync(`mqtt://127.0.0.1:${port}`, { protocolVersion: 5 });
  let received = 0;
  client.on('message', () => {
    received += 1;
  });
  await client.subscribeAsync('piles/+/+/+', { qos: 1 });
  const timed = await time(port, () => received);
  await client.endAsync();
  return { ...timed, lost: messages - received };
}

async function runIngest(source: IngestOptions['source']): Promise<Run> {
  const folder = await mkdtemp(join(tmpdir(), 'branhearth-bench-'));
  const store = openSqliteReadings(join(folder, 'readings.db'));
  let committed = 0;
  const ingest = await startIngest({
    store,
    clock: liveClock,
    root: 'piles',
    source,
    mappings: [],
    calibrate: (_site, _probe, _quantity, value) => value,
    admits: () => true,
    onCommitted(readings) {
      committed += readings.length;
    },
    onStatus() {},
    log: { info() {}, warn: console.warn, error: console.error },
  });
  try {
    while (ingest.health().state === 'down') await pause(20);
    await pause(100); // until the broker has the subscription
    const timed = await time(Number(new URL(ingest.url).port), () => committed / readingsPerMessage);
    const { rows } = await store.size();
    return { ...timed, lost: messages - rows / readingsPerMessage };
  } finally {
    await ingest.close();
    await store.close();
    if (source.kind === 'outside') await forgetSession(source.url, source.clientId);
    await rm(folder, { recursive: true, force: true });
  }
}

/** Else the broker would gather the messages of every later run for this client too. */
async function forgetSession(url: string, clientId: string): Promise<void> {
  const client = await connectAsync(url, { protocolVersion: 5, clientId, clean: true });
  await client.endAsync();
}

/** From the publisher's first byte until the last message counted. */
async function time(port: number, counted: () => number): Promise<Omit<Run, 'lost'>> {
  const task: PublisherTask = { port, messages, connections, probes, startMs: Date.now() - 86_400_000 };
  const publisher = fork(fileURLToPath(new URL('./ingest-publisher.js', import.meta.url)), [JSON.stringify(task)]);
  const ended = new Promise((resolve) => publisher.once('exit', resolve));
  await heard(publisher, 'go');
  const startMs = performance.now();
  let last = 0;
  let lastMs = startMs;
  while (last < messages) {
    await pause(5);
    const now = counted();
    if (now > last) lastMs = performance.now();
    else if (performance.now() - lastMs > patienceMs) break;
    last = now;
  }
  // It ends by itself once its last message is acknowledged; what was lost it would wait for in vain.
  await Promise.race([ended, pause(patienceMs)]);
  publisher.kill();
  return {
    msgsPerS: (1_000 * last) / (lastMs - startMs),
    rssMb: Math.round(process.memoryUsage().rss / 1e6),
  };
}

function heard(publisher: ChildProcess, word: string): Promise<void> {
  return new Promise((resolve, reject) => {
    publisher.on('message', (message) => {
      if (message === word) resolve();
    });
    publisher.once('error', reject);
    publisher.once('exit', (code) => reject(new Error(`the publisher ended with ${code} before "${word}"`)));
  });
}

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
const lostOf = (runs: readonly Run[]) => runs.reduce((sum, { lost }) => sum + lost, 0);
const round3 = (value: number) => Math.round(value * 1000) / 1000;

function medianRate(runs: readonly Run[]): number {
  return median(runs.map(({ msgsPerS }) => msgsPerS));
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}
