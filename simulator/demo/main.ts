/**
 * `npm run demo`: the server on a scratch folder, with the farm Saltmere talking to it, until Ctrl-C or until the terminal is
 * closed; then nothing of it is left. Settings are those of the server.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { FastClockSetting } from '../../shared/clock.ts';
import { readConfig } from '../../shared/config.ts';
import { onLeftByNpm } from '../../shared/left-by-npm.ts';
import { mustBeFree } from '../../shared/listen-problem.ts';
import { demoFarm } from '../scenarios/demo/demo-farm.ts';
import { farmStartMs, startFarm } from '../scenarios/demo/start-farm.ts';
import { progressBar } from './past-seasons/progress-bar.ts';
import { writePast } from './past-seasons/write-past.ts';
import { settleFarm } from './settle-farm.ts';

const speed = 600;
const seed = 7;
const mainPath = fileURLToPath(new URL('../../server/app/main.js', import.meta.url));

/** The tenth of June, six in the morning, of this year or the last: what is shown should lie in the past. */
function earlySummerMs(nowMs: number): number {
  const year = new Date(nowMs).getUTCFullYear();
  const thisYearMs = Date.UTC(year, 5, 10, 6);
  return thisYearMs < nowMs - 60 * 86_400_000 ? thisYearMs : Date.UTC(year - 1, 5, 10, 6);
}

const usage = `npm run demo, or branhearth demo

An invented farm with two past years and four simulated piles at work, on a scratch folder that is removed afterwards.
An hour passes in six seconds. BRANHEARTH_PORT and BRANHEARTH_MQTT_PORT name other ports than 4180 and 1883.
`;

async function main(): Promise<void> {
  if (process.argv.slice(2).some((one) => one === '--help' || one === '-h')) {
    process.stdout.write(usage);
    return;
  }
  const stop = new AbortController();
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => stop.abort());
  onLeftByNpm(() => stop.abort());
  // A terminal that was closed takes no more lines.
  for (const out of [process.stdout, process.stderr]) out.on('error', () => {});
  await portsMustBeFree();
  const dataDir = await mkdtemp(join(tmpdir(), 'branhearth-demo-'));
  try {
    await play(dataDir, stop);
  } finally {
    await rm(dataDir, { recursive: true, force: true });
  }
}

/** Before two years are made up in vain. */
async function portsMustBeFree(): Promise<void> {
  const { config } = readConfig(process.env);
  const { HOST: host, PORT: port, MQTT_HOST: mqttHost, MQTT_PORT: mqttPort } = config;
  await mustBeFree({ port, host, use: 'the pages', names: { port: 'BRANHEARTH_PORT', host: 'BRANHEARTH_HOST' } });
  if (config.MQTT_URL !== undefined) return;
  const names = { port: 'BRANHEARTH_MQTT_PORT', host: 'BRANHEARTH_MQTT_HOST' };
  await mustBeFree({ port: mqttPort, host: mqttHost, use: 'the embedded broker', names });
}

async function play(dataDir: string, stop: AbortController): Promise<void> {
  const demoStartMs = earlySummerMs(Date.now());
  const onBatch = progressBar('Two invented years:', process.stdout);
  await writePast({ dataDir, seed, demoStartMs, onBatch, signal: stop.signal });
  if (stop.signal.aborted) return;
  const clock: FastClockSetting = { startMs: demoStartMs, anchorMs: Date.now(), speed };
  const installation = startInstallation(dataDir, clock);
  installation.child.once('exit', () => stop.abort());
  const stopped = new Promise<void>((resolve) => stop.signal.addEventListener('abort', () => resolve()));

  try {
    const { pagesUrl, mqttUrl } = await installation.ready;
    const farm = demoFarm(seed);
    const announced = new Promise<void>((resolve) => {
      const playing = startFarm({ farm, clock, mqttUrl, signal: stop.signal, onLive: resolve });
      playing.catch((error: unknown) => {
        if (!stop.signal.aborted) console.error(`the farm stopped: ${error instanceof Error ? error.message : error}`);
        stop.abort();
      });
    });
    await Promise.race([announced, stopped]);
    if (stop.signal.aborted) return;
    await settleFarm({ farm, pagesUrl, farmStartMs: farmStartMs(farm, clock.startMs), clock, signal: stop.signal });
    console.log(
      `\nThe farm Saltmere is at work: open ${pagesUrl}\nAn hour there passes in six seconds here. Everything is invented and goes with Ctrl-C.\n`,
    );
    await stopped;
  } finally {
    stop.abort();
    await installation.stop();
  }
}

interface StartedInstallation {
  readonly child: ChildProcess;
  readonly ready: Promise<{ pagesUrl: string; mqttUrl: string }>;
  stop(): Promise<void>;
}

function startInstallation(dataDir: string, clock: FastClockSetting): StartedInstallation {
  const child = spawn(process.execPath, [mainPath], {
    env: {
      ...process.env,
      BRANHEARTH_DATA_DIR: dataDir,
      BRANHEARTH_CLOCK: JSON.stringify(clock),
      BRANHEARTH_LOG_LEVEL: 'info',
    },
    stdio: ['ignore', 'pipe', 'inherit'],
    // Ctrl-C goes to the whole group of a terminal; the server shall hear of it from here, after the farm fell silent.
    detached: true,
  });
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const ready = new Promise<{ pagesUrl: string; mqttUrl: string }>((resolve, reject) => {
    let output = '';
    child.stdout.on('data', (chunk: Buffer) => {
      output = (output + chunk.toString()).slice(-10_000);
      const pagesUrl = /pages at (http:[^,\s]+),/.exec(output)?.[1];
      const mqttUrl = /probes publish to ([^,\s]+),/.exec(output)?.[1];
      if (pagesUrl && mqttUrl) resolve({ pagesUrl, mqttUrl });
    });
    void ended.then(() => reject(new Error('the server ended before its pages were up')));
  });
  return {
    child,
    ready,
    async stop() {
      child.kill('SIGTERM');
      await ended;
    },
  };
}

main().then(
  () => process.exit(0),
  (error: unknown) => {
    console.error(error instanceof Error ? error.message : error);
    process.exit(1);
  },
);
