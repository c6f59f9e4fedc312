/**
 * A whole server over the two invented years of Saltmere, with one bran batch running.
 *
 * The running batch is the second of the plan played again by another seed: like the past, and not the same.
 */
import type { FastifyInstance } from 'fastify';
import pino from 'pino';
import { buildApp } from '../../server/app/app.ts';
import { openInstallation } from '../../server/app/open-single.ts';
import type { Clock } from '../../shared/clock.ts';
import { readConfig } from '../../shared/config.ts';
import { msPerHour } from '../../shared/units.ts';
import { pastPlan } from '../../simulator/demo/past-seasons/past-plan.ts';
import { playPast } from '../../simulator/demo/past-seasons/play-past.ts';
import { writePast } from '../../simulator/demo/past-seasons/write-past.ts';
import { commitReadings } from './commit-readings.ts';
import { bandsAtOnce } from './open-test-server.ts';

export interface PastInstallation {
  readonly app: FastifyInstance;
  readonly runningId: string;
  readonly clock: Clock;
  close(): Promise<void>;
}

export const demoStartMs = Date.UTC(2031, 5, 10, 6);
const seed = 7;
const runsH = 70;

/** @param pagesDir Folder of the built pages; without it only the API answers. */
export async function openPastInstallation(dataDir: string, pagesDir?: string): Promise<PastInstallation> {
  await writePast({ dataDir, seed, demoStartMs });
  const { config } = readConfig({
    BRANHEARTH_PORT: '0',
    BRANHEARTH_MQTT_PORT: '0',
    BRANHEARTH_DATA_DIR: dataDir,
    BRANHEARTH_LOG_LEVEL: 'silent',
  });
  const clock: Clock = { nowMs: () => demoStartMs, speed: 1 };
  const log = pino({ level: 'silent' });
  const installation = await openInstallation({ config, clock, log, version: '0.0.0-test', bands: bandsAtOnce });
  const app = await buildApp(installation, pagesDir === undefined ? {} : { pagesDir });
  await app.ready();

  const laidAtMs = demoStartMs - runsH * msPerHour;
  const model = pastPlan(seed, 2031).find(({ stage, mistake }) => stage === 'bran' && mistake === 'none');
  if (!model) throw new Error('no batch to play again');
  const { readings } = playPast({ ...model, laidAtMs, lengthH: runsH }, seed + 1);
  await commitReadings(installation, readings);
  const laid = await app.inject({
    method: 'POST',
    url: `/api/piles/${model.pileId}/batches`,
    payload: {
      stage: 'bran',
      startedAt: laidAtMs,
      recipe: { material: 'wheat-bran', depthM: 0.26, moistureFrac: 0.59, cover: 'breathable' },
    },
  });
  if (laid.statusCode !== 201) throw new Error(laid.body);
  return {
    app,
    clock,
    runningId: (laid.json() as { batch: { id: string } }).batch.id,
    async close() {
      await app.close();
      await installation.close();
    },
  };
}
