/**
 * Two invented years, 24 ended batches, written into the stores of a server that is not open yet: the stores let one
 * writer in.
 */
import { join } from 'node:path';
import type { Material } from '../../../shared/profiles/material-names.ts';
import { openSqliteJournal } from '../../../shared/store/journal/sqlite-journal.ts';
import type { BatchRecord, Journal } from '../../../shared/store/journal.ts';
import { openSqliteReadings } from '../../../shared/store/readings/sqlite-readings.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import { msPerHour } from '../../../shared/units.ts';
import { demoFarm } from '../../scenarios/demo/demo-farm.ts';
import { outcomeOf } from './outcome.ts';
import { alarmsOf } from './past-alarms.ts';
import { entriesOf } from './past-entries.ts';
import { flowsInto, useOf } from './past-flows.ts';
import { layLots } from './past-lots.ts';
import { type PastBatch, pastPlan } from './past-plan.ts';
import { type PlayedBatch, playPast } from './play-past.ts';

export interface PastOptions {
  readonly dataDir: string;
  readonly seed: number;
  /** When the demo's clock starts [epoch ms]. */
  readonly demoStartMs: number;
  readonly onBatch?: (done: number, of: number) => void;
  /** Ends it between two batches. */
  readonly signal?: AbortSignal;
}

const rowsPerBatch = 5_000;

/** @returns How many readings were written. */
export async function writePast({ dataDir, seed, demoStartMs, onBatch, signal }: PastOptions): Promise<number> {
  const readings = openSqliteReadings(join(dataDir, 'readings.db'));
  const journal = await openSqliteJournal(join(dataDir, 'journal.db'));
  try {
    const plan = pastPlan(seed, new Date(demoStartMs).getUTCFullYear());
    await laySites(journal);
    await layLots(journal, plan);
    let rows = 0;
    for (const [i, batch] of plan.entries()) {
      if (signal?.aborted) break;
      const played = playPast(batch, seed);
      rows += await keepReadings(readings, played);
      await keepBatch(journal, played, plan);
      onBatch?.(i + 1, plan.length);
      // Signals and the progress bar get their turn.
      await new Promise((resolve) => setImmediate(resolve));
    }
    return rows;
  } finally {
    await readings.close();
    await journal.close();
  }
}

async function laySites(journal: Journal): Promise<void> {
  for (const { id, name } of demoFarm(0).sites) {
    await journal.sites.add({ id, name, timeZone: null, latitude: 41, longitude: null });
  }
}

async function keepReadings(store: ReadingsStore, { readings }: PlayedBatch): Promise<number> {
  for (let from = 0; from < readings.length; from += rowsPerBatch) {
    await store.append(readings.slice(from, from + rowsPerBatch));
  }
  return readings.length;
}

async function keepBatch(journal: Journal, played: PlayedBatch, plan: readonly PastBatch[]): Promise<void> {
  const { batch, truth } = played;
  const { id } = batch;
  const endMs = batch.laidAtMs + batch.lengthH * msPerHour;
  const outcome = outcomeOf(truth);
  await layBatch(journal, batch);
  for (const entry of entriesOf(batch, endMs, outcome)) await journal.entries.add(entry);
  const alarms = alarmsOf(played, endMs);
  if (alarms.length > 0) await journal.watch.keep({ alarms, steps: [], watch: null });
  await journal.batches.finish(id, endMs, outcome.words);
  await journal.lineage.keep(
    {
      names: [{ batchId: id, name: batch.name }],
      flows: flowsInto(batch),
      ...(batch.stage === 'soil' && useOf(batch, endMs)),
      ended: [
        {
          batchId: id,
          atMs: endMs,
          ending: plan.some(({ fromId }) => fromId === id) ? 'continued' : 'finished',
          reason: null,
        },
      ],
    },
    () => undefined,
  );
}

/** On its pile, which is laid with its first batch. */
async function layBatch(journal: Journal, batch: PastBatch): Promise<void> {
  const { pileId, site, laidAtMs } = batch;
  if (await journal.piles.get(pileId)) {
    await journal.batches.add(recordOf(batch));
    return;
  }
  const name = demoFarm(0).piles.find((pile) => pile.id === pileId)?.name ?? pileId;
  await journal.piles.add({ id: pileId, siteId: site, name, createdAtMs: laidAtMs }, recordOf(batch));
  for (const position of ['core', 'top', 'base', 'air'] as const) {
    await journal.claims.claim({ site, probe: `${batch.probes}-${position}`, pileId, position, fromMs: laidAtMs });
  }
}

function recordOf(batch: PastBatch): BatchRecord {
  const { id, pileId, stage, laidAtMs, massKg, recipe } = batch;
  return {
    id,
    pileId,
    stage,
    startedAtMs: laidAtMs,
    endedAtMs: null,
    outcome: null,
    limits: {},
    recipe: {
      material: materialOf(batch),
      depthM: recipe.depthM ?? 0.28,
      massKg,
      moistureFrac: recipe.moistureFrac ?? 0.6,
      doseFrac: recipe.doseFrac ?? 0,
      cover: recipe.cover ?? 'breathable',
    },
  };
}

function materialOf(batch: PastBatch): Material {
  if (batch.stage === 'soil') return 'soil-mix';
  return batch.recipe.ingredients[0]?.material === 'rice-bran' ? 'rice-bran' : 'wheat-bran';
}
