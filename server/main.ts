/**
 * server/main.ts: `npm start`, all of it or `--only ingest` or `--only web`: reads the environment once, opens the house, listens, and closes on signals.
 */
import { readFile } from 'node:fs/promises';
import pino from 'pino';
import { fastClock, liveClock } from '../shared/clock.ts';
import { readConfig } from '../shared/config.ts';
import { buildApp } from './app.ts';
import { giveBackMemory } from './give-back-memory.ts';
import { openHouse } from './open-house.ts';
import { openWeb } from './open-web.ts';
import { openWorker } from './open-worker.ts';
import { bandWorker } from './watch/band-keeper.ts';
import { onlyOf } from './worker/servers.ts';

/** Compiled files stand in .build/server, so the package lies two folders up. */
const packageUrl = new URL('../../package.json', import.meta.url);
const pagesUrl = new URL('../web', import.meta.url);

async function main(): Promise<void> {
  const { config, unknown } = readConfig(process.env);
  const log = pino({ level: config.LOG_LEVEL });
  for (const name of unknown) log.warn(`${name} is not a variable this version knows; see the table in README.md`);
  const { version } = JSON.parse(await readFile(packageUrl, 'utf8')) as { version: string };
  const clock = config.CLOCK ? fastClock(config.CLOCK) : liveClock;

  const only = onlyOf(process.argv.slice(2));
  const open = { ingest: openWorker, web: openWeb, all: openHouse }[only ?? 'all'];
  const house = await open({ config, clock, log, version, bands: bandWorker() });
  const app = await buildApp(house, only === 'ingest' ? { only } : { pagesDir: pagesUrl.pathname });
  let closing = false;
  const close = async (signal: string) => {
    if (closing) return;
    closing = true;
    log.info(`closing after ${signal}`);
    await app.close();
    await house.close();
    process.exit(0);
  };
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => void close(signal));

  giveBackMemory();
  await listen(app, config.HOST, config.PORT);
  const address = app.server.address();
  const port = typeof address === 'object' && address ? address.port : config.PORT;
  log.info(
    `Branhearth ${version}${only ? ` (${only} only)` : ''}: ${only === 'ingest' ? 'health' : 'pages'} at http://${config.HOST.includes(':') ? `[${config.HOST}]` : config.HOST}:${port}, probes publish to ${house.ingest.url}, data in ${config.DATA_DIR}`,
  );
  if (config.API_TOKEN === undefined) {
    log.info('BRANHEARTH_API_TOKEN is not set, so pages and API answer this machine only');
  }
}

async function listen(app: Awaited<ReturnType<typeof buildApp>>, host: string, port: number): Promise<void> {
  try {
    await app.listen({ host, port });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EADDRINUSE') throw error;
    throw new Error(`Port ${port} on ${host} is taken: set BRANHEARTH_PORT to another, or stop what listens there`, {
      cause: error,
    });
  }
}

main().catch((error: unknown) => {
  // One line a person can act on; the stack only for those who ask for it.
  console.error(error instanceof Error ? error.message : error);
  if (process.env.BRANHEARTH_LOG_LEVEL === 'debug') console.error(error);
  process.exit(1);
});
