/**
 * The temperatures of one batch, by the claims of its time. It never cuts a rollup row: rows that reach over an edge of
 * the batch or of a claim are left out, so no raw row is needed.
 */
import type { Columns } from '../../../core/seasons/course.ts';
import type { BatchRecord, ClaimRecord } from '../../../shared/store/journal.ts';
import type { BucketColumns, ReadingsStore } from '../../../shared/store/readings-store.ts';
import { msPerHour, msPerMinute } from '../../../shared/units.ts';
import { pileSources } from '../../pile/pile-sources.ts';

export interface BatchHeat {
  readonly core: Columns;
  readonly air: Columns;
}

/** Lengths that the store keeps as rollups. */
export const fineMs = 10 * msPerMinute;
export const hourMs = msPerHour;

export interface HeatQuestion {
  readonly batch: BatchRecord;
  readonly siteId: string;
  readonly claims: readonly ClaimRecord[];
  readonly untilMs: number;
  readonly stepMs: number;
}

export async function readBatchHeat(readings: ReadingsStore, question: HeatQuestion): Promise<BatchHeat> {
  const sources = pileSources(question.claims, question.batch.pileId, question.siteId);
  const of = async (position: 'core' | 'air') => {
    const claims = sources.filter((source) => source.position === position).map(({ claim }) => claim);
    return toColumns(await readParts(readings, claims, question, question.stepMs), question.stepMs);
  };
  return { core: await of('core'), air: await of('air') };
}

/** The hottest that was measured in the core [°C], of the same rows, gathered where they lie; null where nothing was. */
export async function readCorePeakC(readings: ReadingsStore, question: HeatQuestion): Promise<number | null> {
  const sources = pileSources(question.claims, question.batch.pileId, question.siteId);
  const claims = sources.filter(({ position }) => position === 'core').map(({ claim }) => claim);
  const peaksC = (await readParts(readings, claims, question, Number.POSITIVE_INFINITY)).flatMap(({ max }) => [...max]);
  return peaksC.length === 0 ? null : Math.max(...peaksC);
}

/** @param lengthMs Of what is gathered into one. */
async function readParts(
  readings: ReadingsStore,
  claims: readonly ClaimRecord[],
  question: HeatQuestion,
  lengthMs: number,
): Promise<BucketColumns[]> {
  const parts: BucketColumns[] = [];
  for (const claim of claims) {
    const columns = await readPart(readings, claim, question, lengthMs);
    if (columns) parts.push(columns);
  }
  return parts;
}

async function readPart(
  readings: ReadingsStore,
  { site, probe, ...claim }: ClaimRecord,
  { batch, untilMs, stepMs }: HeatQuestion,
  lengthMs: number,
): Promise<BucketColumns | undefined> {
  const fromMs = Math.ceil(Math.max(batch.startedAtMs, claim.fromMs) / stepMs) * stepMs;
  const toMs = Math.floor(Math.min(untilMs, claim.toMs ?? untilMs) / stepMs) * stepMs;
  if (fromMs >= toMs) return undefined;
  const { columns } = await readings.buckets(
    [{ site, probe, quantity: 'temperature' }],
    fromMs,
    toMs,
    Math.max(1, Math.floor((toMs - fromMs) / lengthMs)),
  );
  return columns[0];
}

/** Hourly means stand for the middle of their hour; ten minutes are taken as they begin. */
function toColumns(parts: readonly BucketColumns[], stepMs: number): Columns {
  const shiftMs = stepMs >= msPerHour ? stepMs / 2 : 0;
  const inOrder = [...parts].sort((a, b) => (a.startMs[0] ?? 0) - (b.startMs[0] ?? 0));
  const count = inOrder.reduce((sum, { startMs }) => sum + startMs.length, 0);
  const columns = { atMs: new Float64Array(count), meanC: new Float64Array(count), maxC: new Float64Array(count) };
  let at = 0;
  for (const { startMs, mean, max } of inOrder) {
    columns.atMs.set(shiftMs === 0 ? startMs : startMs.map((ms) => ms + shiftMs), at);
    columns.meanC.set(mean, at);
    columns.maxC.set(max, at);
    at += startMs.length;
  }
  return columns;
}
