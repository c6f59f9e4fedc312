/**
 * `npm run demo`: the server on a scratch folder, with the farm Saltmere talking to it.
 *
 * Takes:  BRANHEARTH_PORT and BRANHEARTH_MQTT_PORT like the server itself.
 * Gives:  pages to look at until Ctrl-C; then nothing of it is left.
 * Never:  touches a data folder that somebody uses.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { FastClockSetting } from '../../shared/clock.ts';
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

async function main(): Promise<void> {
  const dataDir = await mkdtemp(join(tmpdir(), 'branhearth-demo-'));
  const demoStartMs = earlySummerMs(Date.now());
  await writePast({ dataDir, seed, demoStartMs, onBatch: progressBar('Two invented years:', process.stdout) });
  const clock: FastClockSetting = { startMs: demoStartMs, anchorMs: Date.now(), speed };
  const stop = new AbortController();
  const installation = startInstallation(dataDir, clock);
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => stop.abort());
  installation.child.once('exit', () => stop.abort());

  try {
    const { pagesUrl, mqttUrl } = await installation.ready;
    const farm = demoFarm(seed);
    const told = new Promise<void>((resolve) => {
      const playing = startFarm({ farm, clock, mqttUrl, signal: stop.signal, onLive: resolve });
      playing.catch((error: unknown) => {
        if (!stop.signal.aborted) console.error(`the farm stopped: ${error instanceof Error ? error.message : error}`);
        stop.abort();
      });
    });
    await told;
    await settleFarm({ farm, pagesUrl, farmStartMs: farmStartMs(farm, clock.startMs), clock, signal: stop.signal });
    console.log(
      `\nThe farm Saltmere is at work: open ${pagesUrl}\nAn hour there passes in six seconds here. Everything is invented and goes with Ctrl-C.\n`,
    );
    await new Promise<void>((resolve) => {
      if (stop.signal.aborted) resolve();
      stop.signal.addEventListener('abort', () => resolve());
    });
  } finally {
    stop.abort();
    await installation.stop();
    await rm(dataDir, { recursive: true, force: true });
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
    void ended.then(() => reject(new Error('the house ended before its pages were up')));
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
