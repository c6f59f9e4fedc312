/**
 * Builds what changed into .build/: the programs for Node, and the pages. `--force` builds all of it, `--with-tests` also what
 * tests and benches start as programs. Types are not checked here: the gate does (`npm run types`).
 */
import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, readdirSync, readFileSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const built = join(root, '.build');
const rooms = ['shared', 'core', 'ingest', 'server', 'simulator'];
/** What package.json starts, the health check of the image, and the list by which catalogues are copied. */
const programs = [...startedBy(/server|simulator/), 'server/check/alive', 'shared/messages/made/languages'];
const programsOfTests = [...startedBy(/tests/), 'tests/shared/store/append-until-killed'];
const rootFiles = ['package.json', 'package-lock.json', 'tsconfig.json'];
const [isForced, isWithTests] = ['--force', '--with-tests'].map((option) => process.argv.includes(option));

/** @returns paths below the root, without their ending. */
function startedBy(folders) {
  const named = readFileSync(join(root, 'package.json'), 'utf8').matchAll(/\.build\/((\w+)\/[\w/-]+)\.js/g);
  return [...new Set([...named].filter(([, , folder]) => folders.test(folder)).map(([, path]) => path))];
}

function needNode() {
  const { engines } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  const [least, leastMinor] = engines.node.match(/\d+/g).map(Number);
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > least || (major === least && minor >= leastMinor)) return;
  throw new Error(
    `it needs Node.js ${least}.${leastMinor} or later, best the newest long-term one: this is ${process.version}`,
  );
}

/** Newest change below a path [epoch ms]; 0 when it does not exist. */
function newestChangeMs(path) {
  if (!existsSync(path)) return 0;
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return readdirSync(path)
    .filter((name) => name !== 'node_modules')
    .reduce((newest, name) => Math.max(newest, newestChangeMs(join(path, name))), 0);
}

/** Runs `build` unless its stamp is newer than all of `sources`. */
async function buildWhenStale(name, sources, build) {
  const stamp = join(built, `.${name}-built`);
  const newestMs = Math.max(...sources.map((source) => newestChangeMs(join(root, source))));
  if (!isForced && existsSync(stamp) && statSync(stamp).mtimeMs >= newestMs) return;
  const startedAt = new Date();
  await build();
  writeFileSync(stamp, `${startedAt.toISOString()}\n`);
}

/** The allocator of rolldown, in both builds, takes memory as it is used and gives it back at once: else it asks for nearly twice as much. */
const sparing = { MIMALLOC_ARENA_EAGER_COMMIT: '0', MIMALLOC_PURGE_DELAY: '0' };

function run(program, ...given) {
  const env = { ...process.env, ...sparing };
  execFileSync(process.execPath, [join(root, program), ...given], { cwd: root, env, stdio: 'inherit' });
}

const bundle = (what) => run('server/bundle.mjs', JSON.stringify({ root, into: built, ...what }));

/** Node 20 runs no driver that comes with its binary (shared/store/sqlite-driver.ts), so the last one for it is compiled once. */
function compileDriverForNode20() {
  if (!process.versions.node.startsWith('20.')) return;
  const link = join(root, 'node_modules/better-sqlite3-node-20');
  const { version } = JSON.parse(readFileSync(join(root, 'node_modules/better-sqlite3/package.json'), 'utf8'));
  if (existsSync(link) || version.startsWith('12.')) return;
  const folder = join(root, 'server/node-20');
  const driver = join(folder, 'node_modules/better-sqlite3');
  if (!existsSync(join(driver, 'build/Release/better_sqlite3.node'))) {
    console.log('Node 20: the SQLite driver is compiled, which takes minutes; Node 22 and later need no compiler');
    // By the path that npm itself was called with, where it was.
    const npm = process.env.npm_execpath ? [process.execPath, process.env.npm_execpath] : ['npm'];
    const [program, ...first] = npm;
    execFileSync(program, [...first, 'ci', '--no-audit', '--no-fund'], { cwd: folder, stdio: 'inherit' });
  }
  rmSync(link, { force: true });
  symlinkSync('../server/node-20/node_modules/better-sqlite3', link);
}

/** A server reads texts from the catalogues themselves (shared/messages/catalogues.ts); those of pages are in what vite makes. */
async function copyCatalogues() {
  const messages = join(root, 'shared/messages');
  const isCatalogue = (name) => name.endsWith('.json') && !/^(page-|standing\.|compared\.)/.test(name);
  const { languages } = await import(pathToFileURL(join(built, 'shared/messages/made/languages.js')).href);
  for (const language of languages) {
    for (const name of readdirSync(join(messages, language)).filter(isCatalogue))
      cpSync(join(messages, language, name), join(built, 'shared/messages', language, name));
  }
}

try {
  needNode();
  if (isForced) rmSync(built, { recursive: true, force: true });
  compileDriverForNode20();
  await buildWhenStale('rooms', [...rooms, ...rootFiles], async () => {
    for (const folder of [...rooms, 'chunks']) rmSync(join(built, folder), { recursive: true, force: true });
    bundle({ programs, starts: rooms, chunks: 'chunks' });
    cpSync(join(root, 'server/fonts'), join(built, 'server/fonts'), { recursive: true });
    await copyCatalogues();
  });
  if (isWithTests) {
    await buildWhenStale('tests', [...rooms, 'tests', ...rootFiles], async () => {
      rmSync(join(built, 'tests'), { recursive: true, force: true });
      bundle({ programs: programsOfTests, starts: ['tests'], chunks: 'tests/chunks' });
    });
  }
  await buildWhenStale('web', ['web', 'shared', 'core', 'simulator', ...rootFiles], () => {
    run('node_modules/vite/bin/vite.js', 'build', '--config', 'web/vite.config.ts', '--logLevel', 'warn');
  });
} catch (error) {
  console.error(`Cannot build Branhearth: ${error instanceof Error ? error.message : error}`);
  process.exit(1);
}
