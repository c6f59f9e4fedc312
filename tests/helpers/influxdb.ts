/**
 * A real InfluxDB of generation 1 on a free port, with a folder of its own. It never leaves a process or a folder
 * behind, or uses one that the system runs.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { KnownInflux } from '../../shared/store/influx/influx-address.ts';
import { freePort } from './free-port.ts';
import { until } from './until.ts';

const program = ['/usr/bin/influxd', '/usr/local/bin/influxd'].find(existsSync);

export const hasInflux = program !== undefined;
if (!hasInflux) {
  console.warn(
    '\n*** NOT TESTED against a real InfluxDB: influxdb is not installed (Debian: apt-get install influxdb) ***\n',
  );
}

/** Ended with this process, however it ends. */
const runningNow = new Set<ChildProcess>();
process.once('exit', () => {
  for (const child of runningNow) child.kill('SIGKILL');
});

export interface TestInflux {
  readonly url: string;
  /** Makes a database that was not there. */
  newDatabase(): Promise<KnownInflux>;
  /** Answers with times in milliseconds. @param as `user` is user:password. */
  ask(question: string, as?: { readonly bucket?: string; readonly user?: string }): Promise<string>;
  stop(signal?: NodeJS.Signals): Promise<void>;
  start(): Promise<void>;
  /** Stops its clockwork: connections are taken, nothing is answered. */
  freeze(): void;
  wake(): void;
  remove(): Promise<void>;
}

export async function startInflux(http: Readonly<Record<string, string>> = {}): Promise<TestInflux> {
  if (program === undefined) throw new Error('Cannot start InfluxDB as influxd must be installed');
  const folder = await mkdtemp(join(tmpdir(), 'branhearth-influx-'));
  const [port, backupPort] = [await freePort(), await freePort()];
  const url = `http://127.0.0.1:${port}`;
  const config = join(folder, 'influxdb.conf');
  const httpLines = Object.entries({ 'bind-address': `"127.0.0.1:${port}"`, 'log-enabled': 'false', ...http });
  await writeFile(
    config,
    `reporting-disabled = true
bind-address = "127.0.0.1:${backupPort}"
[meta]
  dir = "${folder}/meta"
[data]
  dir = "${folder}/data"
  wal-dir = "${folder}/wal"
[monitor]
  store-enabled = false
[http]
${httpLines.map(([name, value]) => `  ${name} = ${value}`).join('\n')}
`,
  );
  let running: ChildProcess | undefined;
  let databases = 0;

  async function start(): Promise<void> {
    const child = spawn(program ?? '', ['-config', config], { stdio: 'ignore' });
    running = child;
    runningNow.add(child);
    await until('InfluxDB', async () => {
      if (child.exitCode !== null) throw new Error(`Cannot start influxd: it ended with ${child.exitCode}`);
      return (await fetch(`${url}/ping`).catch(() => undefined))?.ok || undefined;
    });
  }

  async function stop(signal: NodeJS.Signals = 'SIGTERM'): Promise<void> {
    const child = running;
    running = undefined;
    if (child === undefined) return;
    if (child.exitCode === null && child.signalCode === null) {
      const ended = new Promise((resolve) => child.once('exit', resolve));
      child.kill('SIGCONT');
      child.kill(signal);
      await ended;
    }
    runningNow.delete(child);
  }

  const ask: TestInflux['ask'] = async (question, { bucket = '', user } = {}) => {
    const answer = await fetch(`${url}/query?${new URLSearchParams({ db: bucket, epoch: 'ms' })}`, {
      method: 'POST',
      body: new URLSearchParams({ q: question }),
      signal: AbortSignal.timeout(60_000),
      headers: user === undefined ? {} : { authorization: `Basic ${Buffer.from(user).toString('base64')}` },
    });
    return answer.text();
  };

  await start();
  return {
    url,
    start,
    stop,
    ask,
    async newDatabase() {
      const bucket = `piles${databases++}`;
      await ask(`CREATE DATABASE "${bucket}"`);
      return { url, bucket, generation: 1 };
    },
    freeze: () => void running?.kill('SIGSTOP'),
    wake: () => void running?.kill('SIGCONT'),
    async remove() {
      await stop('SIGKILL');
      await rm(folder, { recursive: true, force: true });
    },
  };
}
