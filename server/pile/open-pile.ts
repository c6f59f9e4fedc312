/**
 * A watch over one pile, made from what the journal holds of it.
 *
 * A pile whose batch cannot be read is opened all the same: its alarms stand, its probes are shown, and it says that
 * nobody judges it.
 */
import type { JudgeReading } from '../../core/profiles/pile-setup.ts';
import { AlarmRegistry } from '../../core/session/alarm-registry.ts';
import { pileQuantities } from '../../shared/quantity.ts';
import type {
  AirAheadRecord,
  AlarmRecord,
  BatchRecord,
  ClaimRecord,
  FlowRecord,
  Journal,
  PileRecord,
} from '../../shared/store/journal.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import { UnreadableRowError } from '../../shared/store/unreadable.ts';
import { msPerDay } from '../../shared/units.ts';
import { randomId } from '../id-from-name.ts';
import { ReadBackError } from './failing.ts';
import { type HandParts, keepHandReadingsOf } from './hand-readings.ts';
import { heardOfPeople } from './heard-by-judge.ts';
import { heardSources, judgedFrom } from './origin.ts';
import { judged, type PileSource, pileSources, sourceSeries, standbyAir } from './pile-sources.ts';
import { PileWatch } from './pile-watch.ts';

/** Enough to be quick, few enough that a start needs little memory. */
const pageRows = 8_192;

export interface OpenPileParts {
  readonly journal: Journal;
  readonly readings: HandParts['readings'];
  readonly nowMs: number;
}

/** Records of a pile, as far as they are read for many piles at once. */
export interface PileRecords {
  readonly pile: PileRecord;
  /** undefined: to be read; it may be that it cannot be. */
  readonly batch: BatchRecord | null | undefined;
  readonly openAlarms: readonly AlarmRecord[];
  /** Of the whole site. */
  readonly claims: readonly ClaimRecord[];
  readonly flows: readonly FlowRecord[];
  /** What is foretold of the air of its site. */
  readonly airAhead: AirAheadRecord | undefined;
}

export interface OpenedPile {
  readonly pile: PileRecord;
  readonly batch: BatchRecord | null;
  readonly watch: PileWatch;
  readonly sources: readonly PileSource[];
  readonly standbys: readonly PileSource[];
  /** What the judge hears: its own probes, and before it was split off those of the pile it came from. */
  readonly judgedSources: readonly PileSource[];
}

/** @throws {StoreError} what the judge must know of the pile cannot be read. */
export async function openPile(parts: OpenPileParts, records: PileRecords): Promise<OpenedPile> {
  const { journal, readings, nowMs } = parts;
  const { pile, claims, flows, openAlarms, airAhead } = records;
  const batch = records.batch === undefined ? await lyingBatch(journal, pile.id) : records.batch;
  if (batch && batch.startedAtMs > nowMs + msPerDay) {
    throw new RangeError(
      `Cannot judge batch "${batch.id}" as it must have been laid by now: its time is to come, or the clock of this machine is wrong`,
    );
  }
  await keepHandReadingsOf({ journal, readings }, claims, pile.id);
  const acts = await journal.acts.list(pile.id);
  const heard = await heardOfPeople(journal, batch);
  const sources = pileSources(claims, pile.id, pile.siteId);
  const from = batch && (await judgedFrom(journal, flows, batch, acts, heard, heardSources(claims, pile)));
  const standbys = standbyAir(claims, pile.id, pile.siteId);
  const judgedSources = from?.sources ?? sources;
  const watch = new PileWatch({
    pile,
    batch,
    acts,
    heard,
    ...(from && { setup: { ...from.setup, ...(airAhead && { airAhead }) } }),
    registry: boardOf(pile, openAlarms, nowMs),
    readBack: (fromMs, toMs) => readBack(readings, [...judgedSources, ...standbys], fromMs, toMs),
  });
  return { pile, batch, watch, sources, standbys, judgedSources };
}

/** @throws {UnreadableRowError} A batch may lie there and cannot be read: that is not the same as none. */
async function lyingBatch(journal: Journal, pileId: string): Promise<BatchRecord | null> {
  const lying = await journal.batches.open(pileId);
  if (lying) return lying;
  await journal.batches.list(pileId);
  const unsure = journal.unreadable.ofPile(pileId).find((row) => row.table === 'batch' && row.column === 'ended_at_ms');
  if (unsure) throw new UnreadableRowError(unsure);
  return null;
}

/** One that cannot be judged: only what stands is shown. */
export function unjudgedPile({ pile, claims, openAlarms }: PileRecords, nowMs: number): OpenedPile {
  const sources = pileSources(claims, pile.id, pile.siteId);
  const nothing = async function* () {};
  const watch = new PileWatch({
    pile,
    batch: null,
    acts: [],
    registry: boardOf(pile, openAlarms, nowMs),
    readBack: nothing,
  });
  return { pile, batch: null, watch, sources, standbys: [], judgedSources: sources };
}

/** What is said to have begun in a time to come began now, or it would never end. */
function boardOf(pile: PileRecord, open: readonly AlarmRecord[], nowMs: number): AlarmRegistry {
  const registry = new AlarmRegistry(pile.id, open, randomId);
  registry.clockWasSet(nowMs);
  return registry;
}

async function* readBack(
  readings: Pick<ReadingsStore, 'rows'>,
  sources: readonly PileSource[],
  fromMs: number,
  toMs: number,
): AsyncGenerator<JudgeReading[]> {
  const series = sourceSeries(sources, pileQuantities);
  let nextMs = fromMs;
  while (nextMs < toMs) {
    const rows = await readings.rows(series, nextMs, toMs, pageRows).catch((cause: unknown) => {
      throw new ReadBackError(cause instanceof Error ? cause.message : String(cause), { cause });
    });
    const last = rows.at(-1);
    if (!last) return;
    yield rows.flatMap((row) => judged(sources, row) ?? []);
    nextMs = last.atMs + 1;
  }
}
