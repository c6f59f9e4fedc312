/** Everything that can be taken out, subject by subject, as plain rows. */
import { entryMessage } from '../../../../core/records/entry-message.ts';
import type { ExportSubject } from '../../../../shared/contracts/records.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { type EntryFacts, sampleMoistureFrac } from '../../../../shared/entry.ts';
import { plainEnglish } from '../../../../shared/messages/render.ts';
import type { BatchRecord, EntryRecord, Journal } from '../../../../shared/store/journal.ts';
import { allEntries } from '../../../pile/all-entries.ts';
import { batchAt } from '../../journal/batch-at.ts';
import { batchView, readFamily } from '../../lineage/family.ts';
import { amountsOf } from '../../lineage/rest.ts';
import type { Cell } from './csv.ts';

export type Row = Record<string, Cell>;

export interface Subject {
  readonly columns: readonly string[];
  readonly rows: (journal: Journal) => AsyncIterable<Row>;
}

const instantOrNull = (atMs: number | null) => (atMs === null ? null : toInstant(atMs));

/** Fields of the kinds of entry; each name says what it holds, and the import knows the same. */
export const entryFactColumns = [
  'position',
  'temperatureC',
  'moisturePct',
  'amountL',
  'depthM',
  'rainMm',
  'cover',
  'place',
  'feel',
  'smells',
  'colour',
  'otherColour',
  'amount',
  'pests',
  'wetG',
  'dryG',
  'moistureFrac',
  'smell',
  'look',
  'ready',
  'batchId',
  'verdict',
  'why',
] as const;

function factCells(what: EntryFacts): Row {
  const { kind: _, ...facts } = what;
  const cells: Row = {};
  for (const [name, value] of Object.entries(facts))
    cells[name] = Array.isArray(value) ? value.join('; ') : (value as Cell);
  if (what.kind === 'pests') {
    cells.pests = what.what;
    delete cells.what;
  }
  if (what.kind === 'sample' && what.dryG !== undefined) cells.moistureFrac = sampleMoistureFrac(what.wetG, what.dryG);
  return cells;
}

function entryRow(entry: EntryRecord, batches: readonly BatchRecord[]): Row {
  const batch = batchAt(batches, entry.pileId, entry.atMs);
  return {
    id: entry.entryId,
    pile: entry.pileId,
    batch: entry.what.kind === 'verdict' ? entry.what.batchId : batch?.id,
    time: toInstant(entry.atMs),
    kind: entry.what.kind,
    by: entry.by,
    note: entry.note,
    ...factCells(entry.what),
    says: plainEnglish(entryMessage(entry.what, batch?.stage)),
    photos: entry.photoIds.join('; '),
    recordedAt: toInstant(entry.recordedAtMs),
    version: entry.version,
    versionId: entry.id,
    reason: entry.reason,
    withdrawn: entry.withdrawn,
  };
}

const entryColumns = [
  'id',
  'pile',
  'batch',
  'time',
  'kind',
  'by',
  'note',
  ...entryFactColumns,
  'says',
  'photos',
  'recordedAt',
  'version',
  'versionId',
  'reason',
  'withdrawn',
];

async function* entryRows(journal: Journal): AsyncGenerator<Row> {
  const batches = await journal.batches.list();
  for await (const entry of allEntries(journal, { withdrawn: true })) yield entryRow(entry, batches);
}

async function* alarmRows(journal: Journal): AsyncGenerator<Row> {
  for (const pile of await journal.piles.list()) {
    for (const alarm of await journal.alarms.forPile(pile.id, 1_000_000)) {
      const { words } = alarm;
      const steps = await journal.alarms.steps(alarm.id);
      yield {
        id: alarm.id,
        pile: alarm.pileId,
        kind: alarm.kind,
        position: alarm.position,
        severity: alarm.severity,
        state: alarm.state,
        raisedAt: toInstant(alarm.raisedAtMs),
        closedAt: instantOrNull(alarm.closedAtMs),
        seen: plainEnglish(words.seen),
        todo: plainEnglish(words.todo),
        steps: steps
          .map(({ atMs, from, to, arrow, by, note }) =>
            [toInstant(atMs), `${from} -> ${to}`, arrow, by ?? '', note ?? ''].filter(Boolean).join(' '),
          )
          .join('; '),
      };
    }
  }
}

async function* batchRows(journal: Journal): AsyncGenerator<Row> {
  const family = await readFamily(journal);
  for (const batch of family.batches.values()) {
    const { pileId, pileName, verdict, messages: _, ...view } = batchView(family, batch);
    const { laidKg, inKg, outKg, restKg, remark } = amountsOf(family, batch);
    const judged = { verdict: verdict?.verdict, verdictWhy: verdict?.why, verdictNote: verdict?.note };
    yield { ...view, ...judged, pile: pileId, pileName, ...batch.recipe, laidKg, inKg, outKg, restKg, remark };
  }
}

async function* lotRows(journal: Journal): AsyncGenerator<Row> {
  for (const { facts, createdAtMs, ...lot } of await journal.lots.list()) {
    const shown: Row = { ...lot, createdAt: toInstant(createdAtMs), ...facts };
    if (facts.kind === 'starter') shown.collectedAt = instantOrNull(facts.collectedAt ?? null);
    else shown.receivedAt = instantOrNull(facts.receivedAt ?? null);
    yield shown;
  }
}

async function* flowRows(journal: Journal): AsyncGenerator<Row> {
  for (const { id, from, to, way, atMs, massKg, volumeL, withdrawnAtMs } of await journal.lineage.flows()) {
    yield {
      id,
      fromKind: from.kind,
      from: from.id,
      toKind: to.kind,
      to: to.id,
      way,
      at: toInstant(atMs),
      massKg,
      volumeL,
      withdrawnAt: instantOrNull(withdrawnAtMs),
    };
  }
}

export const exportSubjectTable: Record<ExportSubject, Subject> = {
  sites: {
    columns: ['id', 'name', 'timeZone', 'latitude', 'longitude'],
    async *rows(journal) {
      for (const site of await journal.sites.list()) yield { ...site };
    },
  },
  piles: {
    columns: ['id', 'site', 'name', 'createdAt'],
    async *rows(journal) {
      for (const { id, siteId, name, createdAtMs } of await journal.piles.list()) {
        yield { id, site: siteId, name, createdAt: toInstant(createdAtMs) };
      }
    },
  },
  batches: {
    columns: [
      ...['id', 'name', 'pile', 'pileName', 'site', 'stage', 'startedAt', 'endedAt', 'ending', 'reason', 'outcome'],
      ...['verdict', 'verdictWhy', 'verdictNote'],
      ...['material', 'depthM', 'massKg', 'moistureFrac', 'doseFrac', 'cover', 'shelter'],
      ...['laidKg', 'inKg', 'outKg', 'restKg', 'remark'],
    ],
    rows: batchRows,
  },
  entries: { columns: entryColumns, rows: entryRows },
  'earlier-versions': {
    columns: entryColumns,
    async *rows(journal) {
      const batches = await journal.batches.list();
      for (const entry of await journal.entries.earlier()) yield entryRow(entry, batches);
    },
  },
  alarms: {
    columns: ['id', 'pile', 'kind', 'position', 'severity', 'state', 'raisedAt', 'closedAt', 'seen', 'todo', 'steps'],
    rows: alarmRows,
  },
  lots: {
    columns: [
      ...['id', 'kind', 'name', 'createdAt', 'storage', 'massKg', 'volumeL', 'note', 'usedUp'],
      ...['collectedPlace', 'collectedAt', 'medium', 'sugar', 'sugarRatio'],
      ...['material', 'supplier', 'lotNumber', 'organic', 'certificate', 'receivedAt'],
    ],
    rows: lotRows,
  },
  flows: {
    columns: ['id', 'fromKind', 'from', 'toKind', 'to', 'way', 'at', 'massKg', 'volumeL', 'withdrawnAt'],
    rows: flowRows,
  },
  uses: {
    columns: ['id', 'batchId', 'target', 'place', 'at', 'massKg', 'volumeL', 'areaM2', 'by', 'note'],
    async *rows(journal) {
      for (const { atMs, ...use } of await journal.lineage.uses()) yield { ...use, at: toInstant(atMs) };
    },
  },
};
