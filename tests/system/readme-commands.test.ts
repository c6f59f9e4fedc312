/** Every command in every README is run here, with its payload, as somebody would type it; what cannot be run says why. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { configVariables } from '../../shared/config-variables.ts';
import type { RefusalsAnswer } from '../../shared/contracts/ingest.ts';
import type { Probe, ProbesAnswer } from '../../shared/contracts/probes.ts';
import { commandsIn, fencedCommands, readmeFiles } from '../helpers/fenced-commands.ts';
import { hasInflux, startInflux } from '../helpers/influxdb.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';

let folder: string;
let server: SpawnedInstallation;
let mqttPort: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'branhearth-readme-'));
  server = await spawnInstallation(join(folder, 'data'));
  mqttPort = new URL(server.mqttUrl).port;
});
afterAll(async () => {
  await server?.stop();
  await rm(folder, { recursive: true, force: true });
});

const settings = (more: Record<string, string> = {}) => ({
  PATH: process.env.PATH,
  HOME: process.env.HOME,
  BRANHEARTH_DATA_DIR: join(folder, 'data'),
  BRANHEARTH_PORT: '0',
  BRANHEARTH_MQTT_PORT: '0',
  ...more,
});

function typed(command: string, more: Record<string, string> = {}) {
  const { status, stdout, stderr } = spawnSync('bash', ['-c', command], {
    env: settings(more),
    encoding: 'utf8',
    timeout: 60_000,
  });
  return { status, stdout, said: `${stdout}${stderr}` };
}

async function asked<T>(path: string): Promise<T> {
  return (await (await fetch(`${server.pagesUrl}${path}`)).json()) as T;
}

async function probeOf(site: string, name: string): Promise<Probe | undefined> {
  const { probes } = await asked<ProbesAnswer>('/api/probes');
  return probes.find((one) => one.site === site && one.probe === name);
}

/** What the topic and the payload of a command must have become, and that nothing was refused. */
async function published(command: string): Promise<void> {
  const [, site = '', probe = '', quantity = ''] = /-t piles\/([\w-]+)\/([\w-]+)\/(\w+)/.exec(command) ?? [];
  const payload = /-m '?([^']+)'?$/.exec(command)?.[1] ?? '';
  const expected = quantity === 'reading' ? valuesOf(JSON.parse(payload)) : { [quantity]: Number(payload) };
  expect(Object.keys(expected)).not.toEqual([]);
  const beforeAt = (await probeOf(site, probe))?.lastAt ?? '';
  const { status, said } = typed(`${command} -p ${mqttPort}`);
  expect([status, said]).toEqual([0, expect.not.stringMatching(/error/i)]);
  await until(`${command} to be kept`, async () => {
    const kept = await probeOf(site, probe);
    if (kept === undefined || (kept.lastAt ?? '') <= beforeAt) return undefined;
    const { temperatureC, humidityPct } = kept.last;
    const values: Record<string, unknown> = {
      temperature: temperatureC,
      humidity: humidityPct,
      battery: kept.batteryV,
    };
    return Object.entries(expected).every(([name, value]) => values[name] === value) || undefined;
  });
  expect((await asked<RefusalsAnswer>('/api/ingest/refusals')).refusals).toEqual([]);
}

/** The newest value of each quantity. */
function valuesOf(payload: unknown): Record<string, number> {
  if (!Array.isArray(payload)) return payload as Record<string, number>;
  const newest = (payload as { n: string; v: number; t?: number }[]).filter(({ t }) => t === undefined);
  return Object.fromEntries(newest.map(({ n, v }) => [n, v]));
}

async function startsUp(command: string, more: Record<string, string> = {}): Promise<void> {
  const child = spawn('bash', ['-c', `exec ${command}`], {
    env: settings(more),
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  try {
    let said = '';
    child.stdout.on('data', (chunk: Buffer) => {
      said += chunk.toString();
    });
    const [, url] = await until('its pages', () => /pages at (http:[^,\s]+),/.exec(said) ?? undefined);
    expect((await fetch(`${url}/api/health`)).ok).toBe(true);
  } finally {
    // Its output is at its end once the last of them is gone, though npm hands the signal to a shell that keeps it.
    const ended = new Promise((resolve) => child.once('close', resolve));
    child.kill('SIGTERM');
    await ended;
  }
}

async function backUpAndRestore(): Promise<void> {
  const kept = join(folder, 'kept.tar.gz');
  const [backup, restore] = ['backup', 'restore'].map(
    (name) => fencedCommands().find(({ command }) => command.startsWith(`npm run ${name} `))?.command ?? '',
  );
  const saved = typed(`${backup}`.replace('kept.tar.gz', kept));
  expect([saved.status, saved.said]).toEqual([0, expect.stringMatching(/read back and found whole/)]);
  const put = typed(`${restore}`.replace('kept.tar.gz', kept), { BRANHEARTH_DATA_DIR: join(folder, 'put-back') });
  expect([put.status, put.said]).toEqual([0, expect.stringMatching(/each file as it was written/)]);
}

async function moved(command: string): Promise<void> {
  const influx = await startInflux();
  try {
    await influx.ask('CREATE DATABASE "branhearth"');
    const { status, said } = typed(
      command.replace('./data', join(folder, 'put-back')).replace('http://host:8086', influx.url),
    );
    expect([status, said]).toEqual([0, expect.stringMatching(/\d/)]);
  } finally {
    await influx.remove();
  }
}

async function replayed(command: string): Promise<void> {
  const log = join(folder, 'log.csv');
  await writeFile(log, 'when,t1\n2026-06-01T06:00:00Z,41.25\n2026-06-01T06:00:01Z,41.5\n');
  const { status, said } = typed(`${command.replace('log.csv', log)} --mqtt ${server.mqttUrl}`);
  expect([status, said]).toEqual([0, expect.stringContaining('')]);
  await until('what was replayed', async () => {
    const kept = await probeOf('saltmere-yard', 'p1');
    return kept?.last.temperatureC === 41.5 || undefined;
  });
}

const says = (pattern: RegExp, status: number) => async (command: string) => {
  expect(typed(command)).toMatchObject({ status, said: expect.stringMatching(pattern) });
};

/** What each command must do, by how it begins, in the order they are run. */
const runs: readonly (readonly [begins: string, run: ((command: string) => Promise<void>) | { notRun: string }])[] = [
  ['npx mqtt pub', published],
  ['npm run simulate -- --help', says(/Simulated piles that speak like real probes/, 0)],
  ['npm run simulate -- replay', replayed],
  // What is installed is what this suite runs on: `.ci/run` installs with the same command.
  ['npm ci', { notRun: '.ci/run begins with it' }],
  ['npm run demo', { notRun: 'tests/system/first-start.test.ts runs it' }],
  ['npm start -- --only', says(/must find journal, readings and broker at servers/, 1)],
  ['npm start', (command) => startsUp(command, { BRANHEARTH_DATA_DIR: join(folder, 'other') })],
  [
    'npm run check',
    async (command) => {
      const { status, said } = typed(command, { BRANHEARTH_DISK_LOW: '1' });
      expect([status, said]).toEqual([0, expect.stringMatching(/\nNothing is wrong\.\n/)]);
    },
  ],
  ['npm run backup', backUpAndRestore],
  ['npm run restore', { notRun: 'run with the backup above' }],
  ['npm run move-readings', moved],
  [
    'sudo cp server/deploy/mosquitto.conf',
    { notRun: 'tests/server/deploy/mosquitto-conf.test.ts runs Mosquitto with it' },
  ],
  ['sudo systemctl', { notRun: 'changes the machine' }],
  ['mkdir mosquitto', { notRun: 'for compose.yaml' }],
  ['mosquitto_passwd', { notRun: 'tests/server/deploy/mosquitto-conf.test.ts makes such a file' }],
  ['sudo chown', { notRun: 'for compose.yaml' }],
  ['docker', { notRun: 'needs an engine; the form of what it reads is tested' }],
];
const runOf = (command: string) => runs.find(([begins]) => command.startsWith(begins))?.[1];

test('fencedCommands() takes commands out of blocks marked sh, without remarks, and keeps # in quotes and words', () => {
  const text = "a\n```sh\nnpm start    # pages\n# alone\necho 'a # b' c#d\n```\n```json\n{}\n```\n";
  expect(commandsIn('X', text).map(({ line, command }) => [line, command])).toEqual([
    [3, 'npm start'],
    [5, "echo 'a # b' c#d"],
  ]);
});

test('every command of a README has a way to be run here, and every way is of some command', () => {
  const commands = fencedCommands();
  expect(commands.filter(({ command }) => runOf(command) === undefined)).toEqual([]);
  expect(runs.filter(([begins]) => !commands.some(({ command }) => command.startsWith(begins)))).toEqual([]);
});

test('links between our texts lead to files, and to headings in them', () => {
  const anchors = (text: string) =>
    [...text.matchAll(/^#+ (.*)$/gm)].map(([, heading = '']) =>
      heading
        .toLowerCase()
        .replace(/[^\p{L}\p{N} -]/gu, '')
        .replaceAll(' ', '-'),
    );
  for (const file of [...readmeFiles(), 'DEVELOPERS.md']) {
    const text = readFileSync(file, 'utf8');
    for (const [, link = ''] of text.matchAll(/\]\((?!https?:)([^)\s]+)\)/g)) {
      const [path = '', anchor] = link.split('#');
      const target = path === '' ? file : join(dirname(file), path);
      expect(existsSync(target), `${file} links to ${link}`).toBe(true);
      if (anchor !== undefined) expect(anchors(readFileSync(target, 'utf8')), `${file}: ${link}`).toContain(anchor);
    }
  }
});

test('every setting stands in the table of server/README.md', () => {
  const table = readFileSync('server/README.md', 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('| `BRANHEARTH_'));
  for (const name of Object.keys(configVariables)) {
    const end = name.lastIndexOf('_');
    // A second name of a row leaves out what both begin with.
    const isNamed = (line: string) =>
      line.includes(`\`BRANHEARTH_${name}\``) ||
      (end > 0 && line.includes(`\`${name.slice(end)}\``) && line.includes(`\`BRANHEARTH_${name.slice(0, end)}`));
    expect(table.some(isNamed), name).toBe(true);
  }
});

test('npm scripts that texts for people name are there', () => {
  const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> };
  for (const file of [...readmeFiles(), 'DEVELOPERS.md']) {
    for (const [, name = ''] of readFileSync(file, 'utf8').matchAll(/\bnpm run ([\w-]+)/g))
      expect(Object.keys(scripts), `${file} names npm run ${name}`).toContain(name);
  }
});

describe('a command of a README does what is said beside it', () => {
  const order = ({ command }: { command: string }) => runs.findIndex(([begins]) => command.startsWith(begins));
  for (const { file, line, command } of fencedCommands().sort((a, b) => order(a) - order(b))) {
    const run = runOf(command);
    if (typeof run !== 'function') continue;
    test.skipIf(run === moved && !hasInflux)(`${file}:${line} ${command.slice(0, 70)}`, () => run(command), 90_000);
  }
});
