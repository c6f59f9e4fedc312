/**
 * A real Mosquitto on a free port, with the configuration we give people. It never leaves a process or a folder behind.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { freePort } from './free-port.ts';

const program = ['/usr/sbin/mosquitto', '/usr/local/sbin/mosquitto', '/opt/homebrew/sbin/mosquitto'].find(existsSync);

export const hasMosquitto = program !== undefined;
if (!hasMosquitto) {
  console.warn(
    '\n*** NOT TESTED against a real broker: mosquitto is not installed (Debian: apt-get install mosquitto) ***\n',
  );
}

/** Ended with this process, however it ends; a broker left behind would hold its port and a core. */
const runningNow = new Set<ChildProcess>();
process.once('exit', () => {
  for (const child of runningNow) child.kill('SIGKILL');
});

export interface Mosquitto {
  readonly url: string;
  readonly port: number;
  /** Ends it in order; what it keeps stays for `start`. */
  stop(): Promise<void>;
  start(): Promise<void>;
  /** Ends it and removes its folder. */
  remove(): Promise<void>;
}

/** @param settings Lines to replace or add, by their first word; null takes the line out. */
export async function startMosquitto(settings: Readonly<Record<string, string | null>> = {}): Promise<Mosquitto> {
  if (program === undefined) throw new Error('Cannot start a broker as mosquitto must be installed');
  const folder = await mkdtemp(join(tmpdir(), 'branhearth-mosquitto-'));
  const port = await freePort();
  const config = join(folder, 'mosquitto.conf');
  await writeFile(
    config,
    await configFor({
      listener: `${port} 127.0.0.1`,
      persistence: 'true',
      persistence_location: `${folder}/`,
      ...settings,
    }),
  );
  let running: ChildProcess | undefined;

  async function start(): Promise<void> {
    running = spawn(program ?? '', ['-c', config], { stdio: 'ignore' });
    runningNow.add(running);
    await untilListening(port, running);
  }

  async function stop(): Promise<void> {
    const child = running;
    running = undefined;
    if (child === undefined || child.exitCode !== null) return;
    const ended = new Promise((resolve) => child.once('exit', resolve));
    child.kill();
    await ended;
    runningNow.delete(child);
  }

  await start();
  return {
    url: `mqtt://127.0.0.1:${port}`,
    port,
    start,
    stop,
    async remove() {
      await stop();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/** Read from where tests and benches run: the folder of package.json. */
async function configFor(settings: Readonly<Record<string, string | null>>): Promise<string> {
  const given = await readFile('server/deploy/mosquitto.conf', 'utf8');
  const lines = given.split('\n').filter((line) => !((line.split(' ')[0] as string) in settings));
  if (process.getuid?.() === 0) lines.push('user root'); // else it changes to a user who may not write to our folder
  for (const [word, rest] of Object.entries(settings)) if (rest !== null) lines.push(`${word} ${rest}`);
  return lines.join('\n');
}

async function untilListening(port: number, child: ChildProcess): Promise<void> {
  for (let attempt = 0; attempt < 200; attempt += 1) {
    if (child.exitCode !== null) throw new Error(`Cannot start mosquitto: it ended with ${child.exitCode}`);
    const open = await new Promise<boolean>((resolve) => {
      const socket = connect(port, '127.0.0.1', () => {
        socket.destroy();
        resolve(true);
      });
      socket.once('error', () => resolve(false));
    });
    if (open) return;
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  throw new Error('Cannot start mosquitto: it does not listen after 5 s');
}
