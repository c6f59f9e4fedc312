/** Batches beside each other as the API shows them: what each was, with its measures. */
import { type BatchMeasures, measureBatch } from '../../../core/seasons/measure-batch.ts';
import { fillRecipe } from '../../../core/session/fill-recipe.ts';
import type { Clock } from '../../../shared/clock.ts';
import type { ComparedBatch } from '../../../shared/contracts/seasons.ts';
import { stageLimits } from '../../../shared/stage.ts';
import type { AlarmRecord, ClaimRecord, Journal } from '../../../shared/store/journal.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import { heardOfPeople } from '../../pile/heard-by-judge.ts';
import { inKgOf } from '../../pile/origin.ts';
import { batchView, type Family } from '../lineage/family.ts';
import { fineMs, readBatchHeat } from './batch-heat.ts';
import type { Known } from './choose.ts';

const mostAlarms = 2000;

export interface SeasonParts {
  readonly journal: Journal;
  readonly readings: ReadingsStore;
  readonly clock: Clock;
}

/** What is read once for all batches of a question. */
export interface SeasonRecords {
  readonly family: Family;
  readonly known: readonly Known[];
  readonly names: ReadonlyMap<string, string>;
  readonly claims: readonly ClaimRecord[];
}

export async function comparedAll(
  parts: SeasonParts,
  records: SeasonRecords,
  wanted: readonly Known[],
): Promise<ComparedBatch[]> {
  const alarms = new Map<string, readonly AlarmRecord[]>();
  const answer: ComparedBatch[] = [];
  for (const one of wanted) {
    const { pileId } = one.batch;
    const stood = alarms.get(pileId) ?? (await parts.journal.alarms.forPile(pileId, mostAlarms));
    alarms.set(pileId, stood);
    answer.push(comparedView(records, one, await measuresOf(parts, records, one, stood)));
  }
  return answer;
}

async function measuresOf(
  parts: SeasonParts,
  records: SeasonRecords,
  one: Known,
  alarms: readonly AlarmRecord[],
): Promise<BatchMeasures> {
  const { batch, site } = one;
  const untilMs = untilOf(parts, one);
  const limits = { ...stageLimits[batch.stage], ...batch.limits };
  const acts = await parts.journal.acts.list(batch.pileId, batch.startedAtMs);
  const ending = records.family.stories.get(batch.id)?.ending ?? (batch.endedAtMs === null ? null : 'finished');
  return measureBatch({
    setup: {
      stage: batch.stage,
      startedAtMs: batch.startedAtMs,
      limits,
      ...fillRecipe(batch.stage, batch.recipe, limits, inKgOf(records.family.flows, batch.id)),
      acts: acts.filter(({ atMs }) => atMs <= untilMs).sort((a, b) => a.atMs - b.atMs),
      ...within(await heardOfPeople(parts.journal, batch), untilMs),
    },
    untilMs,
    ended: ending === 'finished' || ending === 'continued',
    ...(await readBatchHeat(parts.readings, {
      batch,
      siteId: site.id,
      claims: records.claims,
      untilMs,
      stepMs: fineMs,
    })),
    alarms: alarms
      .filter(({ raisedAtMs, closedAtMs }) => raisedAtMs < untilMs && (closedAtMs ?? untilMs) > batch.startedAtMs)
      .map(({ kind, raisedAtMs, closedAtMs }) => ({ kind, fromMs: raisedAtMs, toMs: closedAtMs })),
  });
}

/** The next batch on the same pile has its own words. */
function within(heard: Awaited<ReturnType<typeof heardOfPeople>>, untilMs: number): typeof heard {
  const { noted = [], confirmedAtMs } = heard;
  return {
    noted: noted.filter(({ atMs }) => atMs <= untilMs),
    ...(confirmedAtMs !== undefined && confirmedAtMs <= untilMs && { confirmedAtMs }),
  };
}

/** The end of a batch, or now. */
export function untilOf({ clock }: SeasonParts, { batch }: Known): number {
  return batch.endedAtMs ?? clock.nowMs();
}

function comparedView({ family, names }: SeasonRecords, one: Known, measures: BatchMeasures): ComparedBatch {
  const { batch, site, season, year, starters } = one;
  return {
    ...batchView(family, batch),
    site: site.id,
    siteName: site.name,
    season: { id: season.id, name: names.get(season.id) ?? season.name },
    year,
    material: batch.recipe.material ?? null,
    cover: batch.recipe.cover ?? null,
    depthM: batch.recipe.depthM ?? null,
    starters: starters.map(({ id, name }) => ({ id, name })),
    measures: { ...measures, alarms: [...measures.alarms] },
  };
}
