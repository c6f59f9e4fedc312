/**
 * tests/gate/system-packages.mjs: sees that the servers and the browser which some tests talk to are there.
 *
 * Takes:  nothing.
 * Gives:  the packages, installed where this machine lets us (root on Debian), else a loud line for each that is
 *         missing with the tests that skip themselves for it.
 */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';

/** Debian package -> a file it brings, and what is tested with it. */
const packages = {
  mosquitto: { file: '/usr/sbin/mosquitto', tests: 'tests against a real broker' },
  'mosquitto-clients': { file: '/usr/bin/mosquitto_pub', tests: 'tests that publish with a standard client' },
  chromium: { file: '/usr/bin/chromium', tests: 'tests in a real browser' },
};

const missing = Object.entries(packages).filter(([, { file }]) => !existsSync(file));
const canInstall =
  process.getuid?.() === 0 && existsSync('/usr/bin/apt-get') && process.env.BRANHEARTH_NO_INSTALL !== '1';

if (missing.length > 0 && canInstall) {
  const names = missing.map(([name]) => name);
  console.log(`installing for the tests: ${names.join(', ')}`);
  const run = (...args) =>
    execFileSync('apt-get', args, {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
  try {
    run('update', '-q');
    run('install', '-y', '-q', '--no-install-recommends', ...names);
  } catch (error) {
    console.error(`could not install: ${error instanceof Error ? error.message : error}`);
  }
}

for (const [name, { file, tests }] of missing) {
  if (!existsSync(file)) console.error(`\n*** SKIPPED: ${tests}. Install the package "${name}" to run them. ***\n`);
}
