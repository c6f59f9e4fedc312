/**
 * Two invented years, 24 ended batches, written into the stores of a server that is not open yet: the stores let one
 * writer in.
 */
import { join } from 'node:path';
import { message } from '../../../shared/messages/message.ts';
import type { Material } from '../../../shared/profiles/material-names.ts';
import { openSqliteJournal } from '../../../shared/store/journal/sqlite-journal.ts';
import type { AlarmRecord, EntryRecord, FlowRecord, Journal, LotRecord } from '../../../shared/store/journal.ts';
import { openSqliteReadings } from '../../../shared/store/readings/sqlite-readings.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import { demoFarm } from '../../scenarios/demo/demo-farm.ts';
import { outcomeOf } from './outcome.ts';
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

const hourMs = 3_600_000;
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

const starterPlaces = {
  'saltmere-yard': 'hazel hedge behind the barn',
  'saltmere-terrace': 'oak wood above the upper terrace',
} as const;

const starterId = (site: PastBatch['site'], year: number) => `starter-${site.slice(9)}-${year}`;
const branId = (year: number) => `bran-${year}`;

async function layLots(journal: Journal, plan: readonly PastBatch[]): Promise<void> {
  const lots: LotRecord[] = [];
  for (const year of new Set(plan.map((batch) => batch.year))) {
    const createdAtMs = Date.UTC(year, 2, 20, 9);
    const common = { createdAtMs, note: null, usedUp: true, volumeL: null };
    for (const site of ['saltmere-yard', 'saltmere-terrace'] as const) {
      const place = starterPlaces[site];
      lots.push({
        ...common,
        id: starterId(site, year),
        name: `${site === 'saltmere-yard' ? 'Hazel' : 'Oak'} starter ${year}`,
        storage: 'stone jar in the cellar',
        massKg: 4,
        facts: {
          kind: 'starter',
          collectedPlace: place,
          collectedAt: createdAtMs - 9 * 86_400_000,
          medium: 'cooked rice',
          sugar: 'brown sugar',
          sugarRatio: 1,
        },
      });
    }
    lots.push({
      ...common,
      id: branId(year),
      name: `Bran ${year}`,
      storage: 'sacks in the loft',
      massKg: 900,
      facts: { kind: 'material', material: 'wheat-bran', supplier: 'the mill at Saltmere', organic: 'unknown' },
    });
  }
  await journal.lineage.keep({ lots }, () => undefined);
}

async function keepReadings(store: ReadingsStore, { readings }: PlayedBatch): Promise<number> {
  for (let from = 0; from < readings.length; from += rowsPerBatch) {
    await store.append(readings.slice(from, from + rowsPerBatch));
  }
  return readings.length;
}

async function keepBatch(journal: Journal, played: PlayedBatch, plan: readonly PastBatch[]): Promise<void> {
  const { batch, truth } = played;
  const { id, pileId, laidAtMs, stage } = batch;
  const endMs = laidAtMs + batch.lengthH * hourMs;
  const outcome = outcomeOf(truth);
  const record = {
    id,
    pileId,
    stage,
    startedAtMs: laidAtMs,
    endedAtMs: null,
    outcome: null,
    limits: {},
    recipe: {
      material: materialOf(batch),
      depthM: batch.recipe.depthM ?? 0.28,
      massKg: batch.massKg,
      moistureFrac: batch.recipe.moistureFrac ?? 0.6,
      doseFrac: batch.recipe.doseFrac ?? 0,
      cover: batch.recipe.cover ?? ('breathable' as const),
    },
  };
  if (await journal.piles.get(pileId)) await journal.batches.add(record);
  else {
    const name = demoFarm(0).piles.find((pile) => pile.id === pileId)?.name ?? pileId;
    await journal.piles.add({ id: pileId, siteId: batch.site, name, createdAtMs: laidAtMs }, record);
    for (const position of ['core', 'top', 'base', 'air'] as const) {
      await journal.claims.claim({
        site: batch.site,
        probe: `${batch.probes}-${position}`,
        pileId,
        position,
        fromMs: laidAtMs,
      });
    }
  }
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

function materialOf(batch: PastBatch): Material {
  if (batch.stage === 'soil') return 'soil-mix';
  return batch.recipe.ingredients[0]?.material === 'rice-bran' ? 'rice-bran' : 'wheat-bran';
}

const keepers = { 'saltmere-yard': 'Ines', 'saltmere-terrace': 'Tomas' } as const;

function entriesOf(batch: PastBatch, endMs: number, outcome: ReturnType<typeof outcomeOf>): EntryRecord[] {
  const entry = (place: string, atMs: number, what: EntryRecord['what'], note: string | null = null): EntryRecord => ({
    id: `${batch.id}-${place}`,
    entryId: `${batch.id}-${place}`,
    version: 1,
    pileId: batch.pileId,
    atMs: Math.round(atMs),
    recordedAtMs: Math.round(atMs),
    by: keepers[batch.site],
    note,
    photoIds: [],
    what,
    reason: null,
    withdrawn: false,
  });
  const entries = batch.acts.flatMap((act, i) => {
    const atMs = batch.laidAtMs + act.afterH * hourMs;
    if (atMs >= endMs) return [];
    if (act.kind === 'turn') return [entry(`turn-${i}`, atMs, { kind: 'turned' })];
    if (act.kind === 'water') return [entry(`water-${i}`, atMs, { kind: 'watered', amountL: act.waterKg })];
    return [];
  });
  const { smell, look, ready } = outcome;
  entries.push(entry('word', endMs - 3 * hourMs, { kind: 'readiness', smell, look, ready }, outcome.words));
  return entries;
}

function flowsInto(batch: PastBatch): FlowRecord[] {
  const flow = (from: FlowRecord['from'], way: FlowRecord['way'], massKg: number | null): FlowRecord => ({
    id: `${from.id}-into-${batch.id}`,
    from,
    to: { kind: 'batch', id: batch.id },
    way,
    atMs: batch.laidAtMs,
    massKg,
    volumeL: null,
    withdrawnAtMs: null,
  });
  if (batch.fromId !== null) return [flow({ kind: 'batch', id: batch.fromId }, 'continued', batch.massKg / 2)];
  const starterKg = Number(((batch.recipe.doseFrac ?? 0) * batch.massKg).toFixed(3));
  return [
    flow({ kind: 'lot', id: starterId(batch.site, batch.year) }, 'input', Math.max(0.005, starterKg)),
    flow({ kind: 'lot', id: branId(batch.year) }, 'input', batch.massKg),
  ];
}

function useOf(batch: PastBatch, endMs: number) {
  const id = `${batch.id}-bed`;
  const massKg = Number((batch.massKg * 0.9).toFixed(1));
  return {
    uses: [
      {
        id,
        batchId: batch.id,
        target: 'bed' as const,
        place: batch.site === 'saltmere-yard' ? 'Kitchen beds' : 'Upper terrace beds',
        atMs: endMs,
        massKg,
        volumeL: null,
        areaM2: Math.round(massKg / 0.6),
        by: keepers[batch.site],
        note: null,
      },
    ],
    flows: [
      ...flowsInto(batch),
      {
        id: `${batch.id}-used`,
        from: { kind: 'batch' as const, id: batch.id },
        to: { kind: 'use' as const, id },
        way: 'used' as const,
        atMs: endMs,
        massKg,
        volumeL: null,
        withdrawnAtMs: null,
      },
    ],
  };
}

/** The core over 50 °C until it is a degree below again: what a keeper with a thermometer would have been told. */
function alarmsOf({ batch, readings }: PlayedBatch, endMs: number): AlarmRecord[] {
  const alarms: AlarmRecord[] = [];
  let raisedAtMs: number | null = null;
  let highestC = 0;
  const close = (atMs: number) => {
    if (raisedAtMs === null) return;
    alarms.push(overheating(batch, alarms.length, raisedAtMs, atMs, highestC));
    raisedAtMs = null;
    highestC = 0;
  };
  for (const { probe, quantity, atMs, value } of readings) {
    if (quantity !== 'temperature' || !probe.endsWith('-core')) continue;
    if (value >= 50) raisedAtMs ??= atMs;
    if (raisedAtMs !== null) highestC = Math.max(highestC, value);
    if (value < 49) close(atMs);
  }
  close(endMs);
  return alarms;
}

function overheating(batch: PastBatch, i: number, fromMs: number, toMs: number, highestC: number): AlarmRecord {
  return {
    id: `${batch.id}-hot-${i}`,
    pileId: batch.pileId,
    kind: 'overheating',
    position: 'core',
    severity: highestC >= 60 ? 'urgent' : 'warning',
    state: 'normal',
    raisedAtMs: fromMs,
    changedAtMs: toMs,
    closedAtMs: toMs,
    machine: {
      state: 'normal',
      sinceMs: toMs,
      hold: { condition: 'clear', sinceMs: toMs },
      firstRaisedAtMs: null,
      severity: null,
      shelvedUntilMs: null,
    },
    words: {
      seen: message('warnings.overheating.seen.above', {
        hottestPart: message('warnings.value.of-pile.now', { position: 'core', tempC: highestC }),
        limitC: 50,
      }),
      todo: message('warnings.overheating.todo.turn'),
      byMs: null,
      caution: null,
    },
  };
}
