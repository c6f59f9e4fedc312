/**
 * tests/helpers/open-test-server.ts: a whole house in this process, on a folder of its own and free ports.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyBaseLogger, FastifyInstance } from 'fastify';
import pino from 'pino';
import { type AppOptions, buildApp } from '../../server/app/app.ts';
import { type HouseParts, type OpenHouse, openHouse } from '../../server/app/open-single.ts';
import { answerBand, type BandKeeper } from '../../server/monitor/band-keeper.ts';
import { type Clock, liveClock } from '../../shared/clock.ts';
import { readConfig } from '../../shared/config.ts';

export interface TestHouse {
  readonly house: OpenHouse;
  readonly app: FastifyInstance;
  readonly dataDir: string;
  /** Closes the house; the folder stays, so that it can be opened again. */
  close(): Promise<void>;
}

/** The same sum as in the worker, here at once: worker threads run compiled files only. */
export const bandsAtOnce: BandKeeper = {
  compute: async (question) => answerBand(question),
  close: async () => undefined,
};

export async function makeDataDir(): Promise<{ dataDir: string; remove: () => Promise<void> }> {
  const dataDir = await mkdtemp(join(tmpdir(), 'branhearth-test-'));
  return { dataDir, remove: () => rm(dataDir, { recursive: true, force: true }) };
}

export async function openTestHouse(
  dataDir: string,
  environment: Record<string, string> = {},
  clock: Clock = liveClock,
  options: AppOptions & Pick<HouseParts, 'guard'> = {},
  machineNowMs: () => number = Date.now,
  log?: FastifyBaseLogger,
): Promise<TestHouse> {
  const given = Object.fromEntries(Object.entries(environment).map(([name, value]) => [`BRANHEARTH_${name}`, value]));
  const { config } = readConfig({
    BRANHEARTH_PORT: '0',
    BRANHEARTH_MQTT_PORT: '0',
    BRANHEARTH_DATA_DIR: dataDir,
    BRANHEARTH_LOG_LEVEL: 'silent',
    ...given,
  });
  const house = await openHouse({
    config,
    clock,
    log: log ?? pino({ level: config.LOG_LEVEL }),
    version: '0.0.0-test',
    bands: bandsAtOnce,
    machineNowMs,
    ...(options.guard && { guard: options.guard }),
  });
  const app = await buildApp(house, options);
  await app.ready();
  return {
    house,
    app,
    dataDir,
    async close() {
      await app.close();
      await house.close();
    },
  };
}
