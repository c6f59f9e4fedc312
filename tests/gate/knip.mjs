/**
 * What knip takes for the ways into the sources. It is run twice (see unused.mjs): over everything, where an export
 * must be imported somewhere; and over what is delivered (`!`), where a thing that only its own test uses is dead too.
 */
const isDelivered = process.argv.includes('--production');

export default {
  entry: [
    'server/app/main.ts!',
    'server/cli/branhearth.ts!',
    'server/bundle.mjs',
    'server/backup/{backup,restore}.ts!',
    'server/check/{main,alive}.ts!',
    'server/move/{main,move-journal-main}.ts!',
    'server/monitor/band-worker.ts!',
    'server/app/beside-worker.ts!',
    'shared/store/migrations/*.ts!',
    'simulator/{cli,demo}/main.ts!',
    'web/src/{main.tsx,begin/begin.ts}!',
    'web/src/worker/worker.ts!',
    'web/{vite,worker}.config.ts!',
    'tests/**/*.test.{ts,tsx}',
    'tests/gate/*.mjs',
    // Started as processes of their own.
    'tests/bench/{main,ingest-publisher}.ts',
    'tests/bench/siege/steady-client.ts',
    'tests/ingest/probes/board/board-worker.mjs',
  ],
  project: ['{shared,core,ingest,server,simulator,web}/**/*.{ts,tsx}!', 'server/*.mjs', 'tests/**/*.{ts,tsx,mjs}'],
  // A test may take hold of a part that its module uses itself.
  ignoreExportsUsedInFile: isDelivered,
  // Resolved by name, in the run or by a sheet: fonts by their files, psychrolib as the CommonJS that it is.
  ignoreDependencies: ['dejavu-fonts-ttf', '@fontsource-variable/atkinson-hyperlegible-next', 'psychrolib'],
  // Programs of the system, which system-packages.mjs sees to, and those that any Unix has.
  ignoreBinaries: ['apt-get', 'mkfifo', 'mosquitto_passwd', 'mount', 'openssl', 'taskset', 'umount'],
};
