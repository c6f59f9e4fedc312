/** A whole server in this process, on a folder of its own and free ports. */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyBaseLogger, FastifyInstance } from 'fastify';
import pino from 'pino';
import { type AppOptions, buildApp } from '../../server/app/app.ts';
import type { InstallationParts, OpenInstallation } from '../../server/app/installation.ts';
import { openInstallation } from '../../server/app/open-single.ts';
import { answerBand, type BandKeeper } from '../../server/monitor/band-keeper.ts';
import { type Clock, liveClock } from '../../shared/clock.ts';
import { readConfig } from '../../shared/config.ts';

export interface TestInstallation {
  readonly installation: OpenInstallation;
  readonly app: FastifyInstance;
  readonly dataDir: string;
  /** Closes the server; the folder stays, so that it can be opened again. */
  close(): Promise<void>;
  /** Closes the server and takes its folder away. */
  closeAndRemove(): Promise<void>;
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

export async function openTestInstallation(
  dataDir: string,
  environment: Record<string, string> = {},
  clock: Clock = liveClock,
  options: AppOptions & Pick<InstallationParts, 'guard'> = {},
  machineNowMs: () => number = Date.now,
  log?: FastifyBaseLogger,
): Promise<TestInstallation> {
  const given = Object.fromEntries(Object.entries(environment).map(([name, value]) => [`BRANHEARTH_${name}`, value]));
  const { config } = readConfig({
    BRANHEARTH_PORT: '0',
    BRANHEARTH_MQTT_PORT: '0',
    BRANHEARTH_DATA_DIR: dataDir,
    BRANHEARTH_LOG_LEVEL: 'silent',
    ...given,
  });
  const installation = await openInstallation({
    config,
    clock,
    log: log ?? pino({ level: config.LOG_LEVEL }),
    version: '0.0.0-test',
    bands: bandsAtOnce,
    machineNowMs,
    ...(options.guard && { guard: options.guard }),
  });
  const app = await buildApp(installation, options);
  await app.ready();
  const close = async () => {
    await app.close();
    await installation.close();
  };
  return {
    installation,
    app,
    dataDir,
    close,
    async closeAndRemove() {
      await close();
      await rm(dataDir, { recursive: true, force: true });
    },
  };
}

/** The same on a new folder of its own. */
export async function openNewTestInstallation(
  ...given: Parameters<typeof openTestInstallation> extends [string, ...infer Rest] ? Rest : never
): Promise<TestInstallation> {
  const { dataDir } = await makeDataDir();
  return openTestInstallation(dataDir, ...given);
}
