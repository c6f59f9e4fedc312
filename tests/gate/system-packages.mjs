/**
 * Sees that the servers and the browser which some tests talk to are there: installs them where this machine lets us (root on Debian),
 * else says loudly of each that is missing which tests skip themselves for it.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';

/** Debian package -> a file it brings, and what is tested with it. */
const packages = {
  mosquitto: { file: '/usr/sbin/mosquitto', tests: 'tests against a real broker' },
  'mosquitto-clients': { file: '/usr/bin/mosquitto_pub', tests: 'tests that publish with a standard client' },
  postgresql: { file: '/usr/lib/postgresql/*/bin/initdb', tests: 'tests against a real PostgreSQL' },
  influxdb: { file: '/usr/bin/influxd', tests: 'tests of readings in a real InfluxDB 1.6' },
  'victoria-metrics': { file: '/usr/bin/victoria-metrics', tests: 'tests with an independent taker of /api/v2/write' },
  nginx: { file: '/usr/sbin/nginx', tests: 'tests behind a reverse proxy' },
  'g++': { file: '/usr/bin/g++', tests: 'the sketch for Arduino boards, compiled for this machine' },
  'python3-jinja2': {
    file: '/usr/lib/python3/dist-packages/jinja2/__init__.py',
    tests: 'templates for home automation hubs, worked out as a hub does',
  },
  chromium: { file: '/usr/bin/chromium', tests: 'tests of push messages in a real browser' },
  'chromium-headless-shell': {
    file: '/usr/lib/chromium/chromium-headless-shell',
    tests: 'tests in a real browser, where the whole Chromium is missing too',
  },
};

/** A `*` stands for a version in the path. */
function isThere(file) {
  const [before, after] = file.split('*');
  if (after === undefined) return existsSync(file);
  return existsSync(before) && readdirSync(before).some((name) => existsSync(before + name + after));
}

const missing = Object.entries(packages).filter(([, { file }]) => !isThere(file));
const canInstall =
  process.getuid?.() === 0 && existsSync('/usr/bin/apt-get') && process.env.BRANHEARTH_NO_INSTALL !== '1';

if (missing.length > 0 && canInstall) {
  const names = missing.map(([name]) => name);
  console.log(`installing for the tests: ${names.join(', ')}`);
  // The tests start clusters of their own; the package would start one as a service.
  const clusters = '/etc/postgresql-common';
  if (names.includes('postgresql') && !existsSync(clusters)) {
    mkdirSync(clusters);
    writeFileSync(`${clusters}/createcluster.conf`, 'create_main_cluster = false\n');
  }
  // The others too are started by the tests themselves; a package starts its service unless this script forbids it.
  const policy = '/usr/sbin/policy-rc.d';
  const forbids = !existsSync(policy);
  if (forbids) writeFileSync(policy, '#!/bin/sh\nexit 101\n', { mode: 0o755 });
  const run = (...args) =>
    execFileSync('apt-get', args, {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive', UCF_FORCE_CONFFOLD: '1' },
    });
  try {
    run('update', '-q');
    run('install', '-y', '-q', '--no-install-recommends', ...names);
  } catch (error) {
    console.error(`could not install: ${error instanceof Error ? error.message : error}`);
  } finally {
    if (forbids) rmSync(policy, { force: true });
  }
  const services = ['influxdb', 'victoria-metrics'].filter((name) => names.includes(name));
  if (services.length > 0 && existsSync('/run/systemd/system')) {
    // Nor at the next start of the machine.
    spawnSync('systemctl', ['disable', '--now', ...services], { stdio: 'ignore' });
  }
}

for (const [name, { file, tests }] of missing) {
  if (!isThere(file)) console.error(`\n*** SKIPPED: ${tests}. Install the package "${name}" to run them. ***\n`);
}
