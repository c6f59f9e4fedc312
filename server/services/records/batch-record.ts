/** The whole record of one batch, gathered once for page, PDF and file. */
import { keyOf } from '../../../core/lineage/graph.ts';
import { readinessCautions } from '../../../core/readiness/readiness-message.ts';
import { historyAt } from '../../../core/records/heat-history.ts';
import { heatView } from '../../../core/session/heat-view.ts';
import { limitsView } from '../../../core/session/limits-view.ts';
import { Breaks } from '../../../shared/breaks.ts';
import type { Clock } from '../../../shared/clock.ts';
import type { Assumption } from '../../../shared/contracts/domain/batch.ts';
import type { BatchRecordSheet } from '../../../shared/contracts/records.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { worded } from '../../../shared/messages/in-words.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import type { AlarmRecord, BatchRecord, EntryRecord, Journal } from '../../../shared/store/journal.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import { judgedFrom } from '../../pile/origin.ts';
import { entryView } from '../journal/entry-view.ts';
import { handPoints } from '../journal/hand-points.ts';
import { batchDetail } from '../lineage/batch-detail.ts';
import { type Family, readFamily } from '../lineage/family.ts';
import { lineageFrom } from '../lineage/lineage-view.ts';
import { lotView } from '../lineage/lot-view.ts';
import { alarmDetail } from '../views/alarm-view.ts';
import { batchHeatHistory } from './batch-heat-history.ts';
import { batchSources } from './batch-sources.ts';
import { downsampledTo, heatLogs, temperatureCurves } from './batch-temperatures.ts';
import { readinessView } from './readiness-view.ts';
import { timeTemperature } from './time-temperature.ts';

const curvePoints = 600;
/** Entries and alarms that one record holds; the exports hold all. */
const mostEntries = 5000;
const mostAlarms = 1000;

export interface RecordParts {
  readonly journal: Journal;
  readonly readings: ReadingsStore;
  readonly clock: Clock;
  /** Of the program. */
  readonly version: string;
}

/** Undefined when there is no such batch. */
export async function batchRecord(parts: RecordParts, batchId: string): Promise<BatchRecordSheet | undefined> {
  const { journal, readings, clock, version } = parts;
  const breaks = new Breaks();
  const family = await readFamily(journal);
  const batch = family.batches.get(batchId);
  if (!batch) return undefined;
  const siteId = family.piles.get(batch.pileId)?.siteId ?? '';
  const site = (await journal.sites.list()).find(({ id }) => id === siteId);
  const nowMs = clock.nowMs();
  const range = { fromMs: batch.startedAtMs, toMs: batch.endedAtMs ?? nowMs };
  const sources = await batchSources(journal, { pileId: batch.pileId, siteId, ...range });
  await breaks.take();
  const entries = await entriesOf(journal, batch);
  await breaks.take();
  const turnsAtMs = entries.filter(({ what }) => what.kind === 'turned').map(({ atMs }) => atMs);
  const history = batchHeatHistory(batch, entries);
  const logs = await heatLogs(readings, sources, range, history);
  const heat = historyAt(history, range.toMs);
  await breaks.take();
  return {
    drawnUpAt: toInstant(nowMs),
    version,
    timeZone: site?.timeZone ?? null,
    siteName: site?.name ?? siteId,
    batch: batchDetail(family, batch),
    recipe: batch.recipe,
    assumed: await assumedOf(journal, family, batch),
    limits: worded(limitsView(batch.stage, batch.limits)),
    lots: lotsOf(family, batch),
    ancestry:
      lineageFrom(family, keyOf({ kind: 'batch', id: batch.id }), 'up')?.nodes.filter(({ step }) => step < 0) ?? [],
    curves: {
      ...(await temperatureCurves(readings, sources, range, curvePoints)),
      byHand: handPoints(entries),
    },
    entries: await breaks.map(entries, (entry) => ({ ...entryView(entry, [batch]), corrected: entry.version > 1 })),
    alarms: await alarmsOf(journal, batch, range.toMs),
    timeTemperature: timeTemperature(
      logs,
      turnsAtMs,
      range.toMs - range.fromMs,
      await downsampledTo(readings, sources, range),
    ),
    pastHeat: worded(heatView(heat, history.limits)),
    readiness: await readinessView(readings, batch, sources, entries, range.toMs, heat),
    cautions: readinessCautions.map((one) => plainEnglish(one)),
    messages: { cautions: [...readinessCautions] },
  };
}

/** As the judge does, so that a record and the page of the pile say the same. */
async function assumedOf(journal: Journal, family: Family, batch: BatchRecord): Promise<Assumption[]> {
  const acts = await journal.acts.list(batch.pileId, batch.startedAtMs);
  const { setup } = await judgedFrom(journal, family.flows, batch, acts, {}, []);
  return [...(setup.assumed ?? [])];
}

/** As they stand, oldest first, from the laying to the end, and its verdict whenever that was given. */
export async function entriesOf(journal: Pick<Journal, 'entries'>, batch: BatchRecord): Promise<EntryRecord[]> {
  const { id: batchId, pileId, startedAtMs: fromMs, endedAtMs } = batch;
  const within = { pileId, batchId, fromMs, ...(endedAtMs !== null && { toMs: endedAtMs }) };
  return (await journal.entries.list({ ...within, limit: mostEntries })).reverse();
}

function lotsOf(family: Family, batch: BatchRecord): BatchRecordSheet['lots'] {
  return family.flows.flatMap(({ from, to, massKg, volumeL }) => {
    const lot = to.kind === 'batch' && to.id === batch.id && from.kind === 'lot' ? family.lots.get(from.id) : undefined;
    return lot ? [{ ...lotView(lot), massKgIn: massKg, volumeLIn: volumeL }] : [];
  });
}

async function alarmsOf(journal: Journal, batch: BatchRecord, untilMs: number): Promise<BatchRecordSheet['alarms']> {
  const within = ({ raisedAtMs }: AlarmRecord) => raisedAtMs >= batch.startedAtMs && raisedAtMs <= untilMs;
  const alarms = (await journal.alarms.forPile(batch.pileId, mostAlarms)).filter(within).reverse();
  const open = await journal.alarms.open(batch.pileId);
  return Promise.all(alarms.map(async (alarm) => alarmDetail(alarm, await journal.alarms.steps(alarm.id), open)));
}
