/**
 * A start, all of it or `--only ingest` or `--only web`: reads the environment once, opens the server, listens, and closes on
 * signals.
 */
import { readFile } from 'node:fs/promises';
import { Server as HttpsServer } from 'node:https';
import { hostname } from 'node:os';
import { fastClock, liveClock } from '../../shared/clock.ts';
import { type Config, isLoopback, readConfig } from '../../shared/config.ts';
import { DamagedFileError, damagedFileExitCode } from '../../shared/errors.ts';
import { listenProblem, mustBeFree, type WantedPort } from '../../shared/listen-problem.ts';
import { type Only, onlyOf } from '../cluster/servers.ts';
import { keepTlsFresh, readTls } from '../http/tls.ts';
import { openLog } from '../log.ts';
import { bandWorker } from '../monitor/band-keeper.ts';
import { startProblem } from '../start-problem.ts';
import { buildApp } from './app.ts';
import { closeOnSignals } from './closing.ts';
import { giveBackMemory, giveBackOnceQuiet } from './give-back-memory.ts';
import type { OpenInstallation } from './installation.ts';
import { startHelp } from './start-help.ts';
import { startLines } from './start-lines.ts';

/** Compiled files stand in .build/server/app, so the package lies three folders up. */
const packageUrl = new URL('../../../package.json', import.meta.url);
const pagesUrl = new URL('../../web', import.meta.url);

/** Each with what it alone needs. */
const openers = {
  ingest: async () => (await import('./open-worker.ts')).openWorker,
  web: async () => (await import('./open-web.ts')).openWeb,
  all: async () => (await import('./open-single.ts')).openInstallation,
};

const ownersLost =
  'No owner can be read: their records in the journal are damaged, so nobody can sign in as one, and nobody becomes one by that. What is damaged stands in /api/health. Put a backup back (npm run restore -- FILE --replace).';

export async function start(given: readonly string[]): Promise<void> {
  try {
    const { version } = JSON.parse(await readFile(packageUrl, 'utf8')) as { version: string };
    if (given.includes('--help') || given.includes('-h')) process.stdout.write(startHelp);
    else if (given.includes('--version')) process.stdout.write(`${version}\n`);
    else await run(onlyOf(given), version);
  } catch (error) {
    // One line a person can act on; the stack only for those who ask for it.
    console.error(startProblem(error));
    if (process.env.BRANHEARTH_LOG_LEVEL === 'debug') console.error(error);
    process.exit(error instanceof DamagedFileError ? damagedFileExitCode : 1);
  }
}

async function run(only: Only | undefined, version: string): Promise<void> {
  process.umask(0o077); // what is kept holds hashes of passwords and keys: only its owner may read it
  const { config, unknown } = readConfig(process.env);
  const onTerminal = process.stdout.isTTY === true;
  // Five lines say on a terminal what the log says elsewhere.
  const usual = onTerminal && !process.env.BRANHEARTH_LOG_LEVEL;
  const log = openLog(usual ? 'warn' : config.LOG_LEVEL, { onTerminal });
  for (const name of unknown)
    log.warn(`${name} is not a variable this version knows; see the table in server/README.md`);
  const clock = config.CLOCK ? fastClock(config.CLOCK) : liveClock;

  const tls = await readTls(config);
  const wanted = wantedPort(config);
  await mustBeFree(wanted);
  const open = openers[only ?? 'all'];
  const installation = await (await open())({
    config,
    clock,
    log,
    version,
    bands: bandWorker(() => giveBackOnceQuiet()),
  });
  const shown = only === 'ingest' ? { only } : { pagesDir: pagesUrl.pathname };
  const app = await buildApp(installation, { ...shown, ...(tls && { tls }) });
  if (app.server instanceof HttpsServer) keepTlsFresh(app.server, config, log);
  closeOnSignals(app, installation, log);

  installation.readings.giveBack?.();
  giveBackMemory();
  await listen(app, wanted);
  const address = app.server.address();
  const port = typeof address === 'object' && address ? address.port : config.PORT;
  const host = config.HOST.includes(':') ? `[${config.HOST}]` : config.HOST;
  const pagesUrlShown = `${tls ? 'https' : 'http'}://${host}:${port}`;
  log.info(
    `Branhearth ${version}${only ? ` (${only} only)` : ''}: ${only === 'ingest' ? 'health' : 'pages'} at ${pagesUrlShown}, probes publish to ${installation.ingest.url}, data in ${config.DATA_DIR}`,
  );
  await sayOwnersLost(installation, config, pagesUrlShown);
  // The address to listen on may be "all of them", which nobody can open.
  const reached = /^(0\.0\.0\.0|\[::\])$/.test(host) ? pagesUrlShown.replace(host, hostname()) : pagesUrlShown;
  const ownersLink = await linkForOwner(installation, config, reached);
  if (onTerminal) {
    const { url: mqttUrl, tlsUrl: mqttTlsUrl } = installation.ingest;
    process.stdout.write(startLines({ version, only, config, pagesUrl: reached, ownersLink, mqttUrl, mqttTlsUrl }));
  }
}

async function sayOwnersLost({ journal, log }: OpenInstallation, config: Config, pagesUrlShown: string): Promise<void> {
  if (!(await journal.people.ownersUnreadable())) return;
  log.error(
    config.API_TOKEN === undefined
      ? `${ownersLost} Or set BRANHEARTH_API_TOKEN, which stands for an owner, and start again.`
      : `${ownersLost} Or invite an owner with the token of BRANHEARTH_API_TOKEN: POST ${pagesUrlShown}/api/invitations with {"role":"owner"} answers a link that is good once.`,
  );
}

/** @returns the link that makes its holder the owner, while there is none. */
async function linkForOwner(
  { people, log }: OpenInstallation,
  config: Config,
  reached: string,
): Promise<string | undefined> {
  const way = await people.links.setup();
  if (way === undefined) return undefined;
  const link = `${config.PUBLIC_URL ?? reached}${way}`;
  log.info(
    `Nobody is set up as owner yet: open ${link} within 24 hours to become it${
      config.API_TOKEN === undefined && isLoopback(config.HOST) ? '; until then this machine itself acts as owner' : ''
    }`,
  );
  return link;
}

function wantedPort({ HOST, PORT }: Config): WantedPort {
  return { port: PORT, host: HOST, use: 'the pages', names: { port: 'BRANHEARTH_PORT', host: 'BRANHEARTH_HOST' } };
}

async function listen(app: Awaited<ReturnType<typeof buildApp>>, wanted: WantedPort): Promise<void> {
  try {
    // Whoever stands behind a flood waits for all of it, 0.3 ms each, and in a long line for a second. Of a short one the system
    // turns the rest away unseen, and they try again a second later.
    await app.listen({ host: wanted.host, port: wanted.port, backlog: 128 });
  } catch (error) {
    throw listenProblem(error as NodeJS.ErrnoException, wanted);
  }
}
