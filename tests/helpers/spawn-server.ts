/** The built program as a process of its own, as `npm start` runs it. */
import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { patienceMs } from './until.ts';

/** Tests run from the sources, benches from what was built of them. */
const built = import.meta.url.endsWith('.js') ? '../../server/app/main.js' : '../../.build/server/app/main.js';
const mainPath = fileURLToPath(new URL(built, import.meta.url));

export interface SpawnedInstallation {
  readonly pagesUrl: string;
  readonly mqttUrl: string;
  readonly child: ChildProcess;
  /** Everything it wrote so far. */
  output(): string;
  /** Ends it as a signal would, and waits. */
  stop(signal?: NodeJS.Signals): Promise<void>;
}

export interface SpawnOptions {
  readonly environment?: Record<string, string>;
  /** Variables that are not ours, as they are. */
  readonly plainEnvironment?: Readonly<Record<string, string>>;
  readonly nodeArguments?: readonly string[];
  /** Another Node than the one that runs this. */
  readonly program?: string;
  /** As in `npm start -- --only ...`. */
  readonly only?: 'ingest' | 'web';
  /** Called once the process is there, before it has done anything of note. */
  readonly onSpawn?: (pid: number) => void;
  /** Told the exit code when it ends before it is up. */
  readonly onExit?: (code: number | null) => void;
  /** How long a start may take before the helper gives up [ms]. */
  readonly patienceMs?: number;
}

/** Resolves once it says where its pages are; rejects with its output when it ends before that. */
export function spawnInstallation(
  dataDir: string,
  {
    environment = {},
    plainEnvironment = {},
    nodeArguments = [],
    program = process.execPath,
    only,
    onSpawn,
    onExit: endedEarly,
    patienceMs: atMostMs = patienceMs,
  }: SpawnOptions = {},
): Promise<SpawnedInstallation> {
  const given = Object.fromEntries(Object.entries(environment).map(([name, value]) => [`BRANHEARTH_${name}`, value]));
  const child = spawn(program, [...nodeArguments, mainPath, ...(only ? ['--only', only] : [])], {
    env: {
      ...plainEnvironment,
      PATH: process.env.PATH,
      BRANHEARTH_PORT: '0',
      BRANHEARTH_MQTT_PORT: '0',
      BRANHEARTH_DATA_DIR: dataDir,
      ...given,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  if (child.pid !== undefined) onSpawn?.(child.pid);
  let output = '';
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));

  return new Promise((resolve, reject) => {
    const giveUp = (why: string) => {
      child.kill('SIGKILL');
      reject(new Error(`${why}\n${output}`));
    };
    const timer = setTimeout(() => giveUp('the server did not start in time'), atMostMs);
    const onExit = (code: number | null) => {
      clearTimeout(timer);
      endedEarly?.(code);
      reject(new Error(output.trim()));
    };
    child.once('exit', onExit);
    const hear = (chunk: Buffer) => {
      output += chunk.toString();
      const said = /(?:pages|health) at (https?:\/\/[^,]+), probes publish to (\S+?), data in/.exec(output);
      if (!said?.[1] || !said[2]) return;
      clearTimeout(timer);
      child.off('exit', onExit);
      child.stdout.off('data', hear);
      child.stdout.on('data', (more: Buffer) => {
        output += more.toString();
      });
      resolve({
        pagesUrl: said[1],
        mqttUrl: said[2],
        child,
        output: () => output,
        async stop(signal = 'SIGTERM') {
          child.kill(signal);
          await ended;
        },
      });
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', (chunk: Buffer) => {
      output += chunk.toString();
    });
  });
}
