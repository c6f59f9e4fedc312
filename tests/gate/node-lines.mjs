/**
 * Sees that the other lines of Node are there which the built program is tested under: Linux on x64 only, and where they cannot be
 * had their tests skip themselves with a loud line.
 */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const folder = join(dirname(dirname(fileURLToPath(import.meta.url))), 'node-lines');
const has = (line) => existsSync(join(folder, 'node_modules', line, 'bin/node'));
const lines = ['node-22', 'node-24', 'node-26'];

if (process.platform === 'linux' && process.arch === 'x64' && !lines.every(has)) {
  console.log('installing for the tests: Node 22, 24 and 26');
  const npm = process.env.npm_execpath ? [process.execPath, process.env.npm_execpath] : ['npm'];
  try {
    execFileSync(npm[0], [...npm.slice(1), 'ci', '--no-bin-links', '--no-audit', '--no-fund'], {
      cwd: folder,
      stdio: ['ignore', 'ignore', 'inherit'],
    });
  } catch (error) {
    console.error(`could not install: ${error instanceof Error ? error.message : error}`);
  }
}
for (const line of lines.filter((one) => !has(one))) console.error(`\n*** SKIPPED: tests under ${line}. ***\n`);
