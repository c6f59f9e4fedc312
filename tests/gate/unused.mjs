/**
 * Nothing stands here that nobody uses: no file, no export, no package (knip, ISC). What is kept for people to call,
 * or for a word of a standard, says `@public` in its comment.
 */
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

/** Whether knip found nothing; what it found stands on the screen. */
function isClean(...args) {
  const program = join(root, 'node_modules/knip/bin/knip.js');
  const { status } = spawnSync(
    process.execPath,
    [program, '--config', 'tests/gate/knip.mjs', '--no-progress', ...args],
    {
      cwd: root,
      stdio: 'inherit',
    },
  );
  return status === 0;
}

const isAllUsed = isClean();
const isAllDelivered = isClean('--production');
if (!isAllUsed || !isAllDelivered) {
  console.error(
    isAllUsed
      ? 'Used by its own test alone: remove both, or move it below tests/ when it only helps to check'
      : 'Used by nobody: remove it, or the word `export` where its own file uses it',
  );
  process.exit(1);
}
console.log('unused: no file, export or package that nobody uses');
