/**
 * Compiles the house into .build/ when its sources are newer than what stands there.
 *
 * Takes:  `--force` to build in any case.
 * Gives:  .build/<room>/... (JavaScript for Node) and .build/web/ (the pages).
 * Never:  runs twice for the same sources, so that a start costs nothing.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const { engines } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
const [least, leastMinor] = engines.node.match(/\d+/g).map(Number);
const [major, minor] = process.versions.node.split('.').map(Number);
if (major < least || (major === least && minor < leastMinor)) {
  console.error(
    `Branhearth needs Node.js ${engines.node.replace('>=', '')} or later, best the newest long-term one: this is ${process.version}`,
  );
  process.exit(1);
}
const rooms = ['shared', 'core', 'ingest', 'server', 'simulator', 'web', 'tests'];
const rootFiles = ['package.json', 'package-lock.json', 'tsconfig.json'];

/** Newest change below a path [epoch ms]; 0 when it does not exist. */
function newestChangeMs(path) {
  if (!existsSync(path)) return 0;
  const stat = statSync(path);
  if (!stat.isDirectory()) return stat.mtimeMs;
  return readdirSync(path).reduce((newest, name) => Math.max(newest, newestChangeMs(join(path, name))), 0);
}

/** Runs `build` unless its stamp is newer than all of `sources`. */
function buildWhenStale(name, sources, build) {
  const stamp = join(root, '.build', `.${name}-built`);
  const force = process.argv.includes('--force');
  const newestMs = Math.max(...sources.map((source) => newestChangeMs(join(root, source))));
  if (!force && existsSync(stamp) && statSync(stamp).mtimeMs >= newestMs) return;
  const startedAt = new Date();
  build();
  writeFileSync(stamp, `${startedAt.toISOString()}\n`);
}

function runBin(bin, args) {
  execFileSync(process.execPath, [join(root, 'node_modules', bin), ...args], { cwd: root, stdio: 'inherit' });
}

try {
  buildWhenStale('rooms', [...rooms.filter((room) => room !== 'web'), ...rootFiles], () => {
    // tsc keeps what is left of files since renamed, so the old output goes first when all is made anew.
    if (process.argv.includes('--force')) rmSync(join(root, '.build'), { recursive: true, force: true });
    runBin('typescript/bin/tsc', ['-p', 'tsconfig.json']);
  });
  buildWhenStale('web', ['web', 'shared', 'core', 'simulator', ...rootFiles], () => {
    runBin('vite/bin/vite.js', ['build', '--config', 'web/vite.config.ts', '--logLevel', 'warn']);
  });
} catch (error) {
  console.error(`Cannot build Branhearth: ${error instanceof Error ? error.message : error}`);
  process.exit(1);
}
