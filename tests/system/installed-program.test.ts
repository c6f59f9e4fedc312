/** The package as `npm pack` makes it, unpacked beside the libraries that npm would install for it, run by its command. */
import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { chmod, mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { until } from '../helpers/until.ts';

let folder: string;
let program: string;
let packed: { size: number; unpackedSize: number; files: { path: string }[]; filename: string };

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'branhearth-packed-'));
  // What is built is there already; building again would pull it away from under other tests.
  const said = execFileSync('npm', ['pack', '--ignore-scripts', '--json', '--pack-destination', folder], {
    encoding: 'utf8',
  });
  const answer = JSON.parse(said) as (typeof packed)[] | Record<string, typeof packed>;
  const [first] = Object.values(answer);
  if (first === undefined) throw new Error(`npm pack said ${said}`);
  packed = first;
  execFileSync('tar', ['xzf', join(folder, packed.filename), '-C', folder]);
  symlinkSync(resolve('node_modules'), join(folder, 'node_modules'));
  program = join(folder, 'package/.build/server/cli/branhearth.js');
  await chmod(program, 0o755); // as npm does for what `bin` names
});
afterAll(() => rm(folder, { recursive: true, force: true }));

function branhearth(...given: string[]) {
  const { status, stdout, stderr } = spawnSync(program, given, {
    cwd: folder,
    env: { PATH: process.env.PATH, BRANHEARTH_DATA_DIR: join(folder, 'data') },
    encoding: 'utf8',
    timeout: 30_000,
  });
  return { status, stdout, stderr };
}

test('holds the built program and pages, what to give other programs, licences, and no test or source', () => {
  const paths = packed.files.map(({ path }) => path);
  for (const path of ['.build/server/app/main.js', '.build/web/index.html', 'server/deploy/branhearth.service'])
    expect(paths).toContain(path);
  for (const path of ['LICENSE', 'README.md', 'server/licences.md']) expect(paths).toContain(path);
  expect(paths.filter((path) => /(^|\/)tests\/|\.tsx?$|node_modules/.test(path))).toEqual([]);
});

test('holds whatever a source finds beside itself: other programs, threads, fonts, the pages', () => {
  const rooms = ['shared', 'core', 'ingest', 'server', 'simulator'];
  const sources = rooms.flatMap((room) =>
    readdirSync(room, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts') && !name.includes('node_modules'))
      .map((name) => join(room, name)),
  );
  const found = sources.flatMap((source) =>
    [...readFileSync(source, 'utf8').matchAll(/new URL\('([^'$]+)', import\.meta\.url\)/g)].map(([, name = '']) =>
      join('.build', dirname(source), name),
    ),
  );
  expect(found).toContain('.build/server/app/beside-worker.js');
  expect(found.filter((path) => !existsSync(join(folder, 'package', path)))).toEqual([]);
});

test('branhearth --version and --help answer, and each command says what it takes', () => {
  const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
  expect(branhearth('--version')).toEqual({ status: 0, stdout: `${version}\n`, stderr: '' });
  const help = branhearth('--help');
  expect([help.status, help.stderr]).toEqual([0, '']);
  const commands = [...help.stdout.matchAll(/^ {2}branhearth ([a-z-]+) /gm)].map(([, name = '']) => name);
  expect(commands).toEqual(['demo', 'simulate', 'check', 'backup', 'restore', 'move-readings', 'move-journal']);
  for (const name of commands) {
    const { status, stdout, stderr } = branhearth(name, '--help');
    expect([name, status, stdout.length > 100, stderr]).toEqual([name, 0, true, '']);
  }
});

test('branhearth with a word it does not know says in one line which it knows', () => {
  const { status, stderr } = branhearth('beginn');
  expect(status).toBe(2);
  expect(stderr).toMatch(/^branhearth beginn is no command: take one of start, demo, [^\n]+\n$/);
});

test('branhearth starts the server, and branhearth backup saves what it keeps', async () => {
  const child = spawn(program, [], {
    env: {
      PATH: process.env.PATH,
      BRANHEARTH_DATA_DIR: join(folder, 'data'),
      BRANHEARTH_PORT: '0',
      BRANHEARTH_MQTT_PORT: '0',
    },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  child.stdout.on('data', (chunk: Buffer) => {
    said += chunk.toString();
  });
  try {
    const [, url] = await until('its pages', () => /pages at (http:[^,\s]+),/.exec(said) ?? undefined);
    expect(await (await fetch(`${url}/`)).text()).toContain('<title>Branhearth');
    expect(branhearth('backup', join(folder, 'kept.tar.gz'))).toMatchObject({ status: 0, stderr: '' });
    expect(await readdir(folder)).toContain('kept.tar.gz');
  } finally {
    const ended = new Promise((resolved) => child.once('exit', resolved));
    child.kill('SIGTERM');
    expect(await ended).toBe(0);
  }
});
