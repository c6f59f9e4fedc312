/**
 * server/import/run-import.ts: a file read row by row: shown first, and kept when the same file is handed in again.
 *
 * Takes:  the request, the house.
 * Gives:  a preview, or how many rows were kept, known, in conflict, refused.
 * Never:  keeps anything in a preview, or anything that the preview did not show.
 */
import { createHash } from 'node:crypto';
import type { z } from 'zod';
import { type ImportPreview, type importDoneSchema, importLimits } from '../../shared/api/import.ts';
import { toInstant } from '../../shared/api/time.ts';
import { ConflictError } from '../../shared/errors.ts';
import type { Reading } from '../../shared/reading.ts';
import type { BatchRecord, EntryRecord } from '../../shared/store/journal.ts';
import { appended } from '../../shared/store/readings-store.ts';
import type { House } from '../house.ts';
import { entryView } from '../journal/entry-view.ts';
import { JournalDesk } from '../journal/journal-desk.ts';
import { probeView } from '../probes/probe-book.ts';
import { sayMeaning } from './column-guess.ts';
import { CsvError } from './csv-error.ts';
import { type CsvTable, readCsvTable } from './csv-table.ts';
import { entryColumnsProblem, entryReader, type ImportedEntry } from './entry-rows.ts';
import { type ReadRow, readingColumnsProblem, readingReader } from './reading-rows.ts';
import { type Columns, columnsOf, type ImportAskRead, longCell, type Refusal } from './row-reader.ts';

type ImportDone = z.output<typeof importDoneSchema>;
type ImportHouse = Pick<House, 'journal' | 'readings' | 'clock' | 'probes' | 'watch' | 'hub'>;

interface Reader {
  readonly table: CsvTable;
  readonly columns: Columns;
  readonly problem: string | null;
  readonly batches: readonly BatchRecord[];
  /** What a row holds. */
  readonly read: (cells: readonly string[]) => ReadRow | ImportedEntry | Refusal;
}

const isRefusal = (found: ReadRow | ImportedEntry | Refusal): found is Refusal => 'reason' in found;
const appendRows = 5000;

async function openReader(house: ImportHouse, ask: ImportAskRead): Promise<Reader> {
  const table = readCsvTable(ask.csv);
  const columns = columnsOf(table, ask);
  const shared = { columns, ask, decimalComma: table.decimalComma, nowMs: house.clock.nowMs() };
  if (ask.kind === 'readings') {
    const sites = new Set((await house.journal.sites.list()).map(({ id }) => id));
    const manner = { ...shared, sites };
    const read = readingReader(manner);
    return { table, columns, problem: readingColumnsProblem(manner), batches: [], read: bounded(columns, read) };
  }
  const manner = { ...shared, piles: await house.journal.piles.list() };
  const batches = await house.journal.batches.list();
  const read = bounded(columns, entryReader(manner));
  return { table, columns, problem: entryColumnsProblem(manner), batches, read };
}

/** A row is only looked at once none of its cells is too long. */
function bounded<Row>(columns: Columns, read: (cells: readonly string[]) => Row) {
  return (cells: readonly string[]): Row | Refusal => longCell(columns, cells) ?? read(cells);
}

/** Of all that decides what is kept. */
export function digestOf({ csv, ...how }: ImportAskRead): string {
  const said = Object.fromEntries(
    Object.entries(how)
      .filter(([key]) => key !== 'digest')
      .sort(),
  );
  return createHash('sha256').update(JSON.stringify(said)).update('\0').update(csv).digest('hex');
}

/** @throws {CsvError} When the file cannot be read as a table. */
export async function previewImport(house: ImportHouse, ask: ImportAskRead): Promise<ImportPreview> {
  const reader = await openReader(house, ask);
  const { table, columns } = reader;
  const rows = { total: 0, accepted: 0, refused: 0, cellsRefused: 0, readings: 0 };
  const refused: ImportPreview['refused'] = [];
  const readings: Reading[] = [];
  const entries: ImportedEntry[] = [];
  let [fromMs, toMs] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for await (const { line, cells } of reader.problem === null ? table.rows() : []) {
    if (++rows.total > importLimits.rows) throw tooMany();
    const found = reader.read(cells);
    const note = (refusal: Refusal) => {
      if (refused.length >= importLimits.refusedShown) return;
      refused.push({ line, ...refusal, text: cells.join(table.delimiter).slice(0, 300) });
    };
    if (isRefusal(found)) {
      rows.refused += 1;
      note(found);
      continue;
    }
    const times = 'readings' in found ? found.readings.map(({ atMs }) => atMs) : [found.entry.at];
    for (const atMs of times) [fromMs, toMs] = [Math.min(fromMs, atMs), Math.max(toMs, atMs)];
    if ('readings' in found) {
      found.refused.forEach(note);
      rows.cellsRefused += found.refused.length;
      rows.readings += found.readings.length;
      if (readings.length < importLimits.acceptedShown) readings.push(...found.readings);
      if (found.readings.length === 0) rows.refused += 1;
      else rows.accepted += 1;
    } else {
      rows.accepted += 1;
      if (entries.length < importLimits.acceptedShown) entries.push(found);
    }
  }
  return {
    digest: digestOf(ask),
    delimiter: table.delimiter,
    decimalComma: table.decimalComma,
    columns: columns.headings.map((heading, i) => {
      const became = columns.meanings[i] ?? { as: 'ignored' as const };
      const examples = table.sample.flatMap((cells) => cells[i]?.trim() || []).slice(0, 3);
      return { heading, became, says: sayMeaning(became, ask), examples };
    }),
    problem: reader.problem,
    rows,
    from: Number.isFinite(fromMs) ? toInstant(fromMs) : null,
    to: Number.isFinite(toMs) ? toInstant(toMs) : null,
    refused,
    readings: readings
      .slice(0, importLimits.acceptedShown)
      .map(({ atMs, ...reading }) => ({ ...reading, at: toInstant(atMs) })),
    entries: entries.map((one) => shownEntry(one, reader.batches)),
  };
}

/** @throws {ConflictError} When the columns do not suffice. @throws {CsvError} When the file cannot be read as a table. */
export async function commitImport(house: ImportHouse, ask: ImportAskRead): Promise<ImportDone> {
  const reader = await openReader(house, ask);
  if (reader.problem !== null) throw new ConflictError(reader.problem.replace(/\.$/, ''), '/columns');
  return ask.kind === 'readings' ? keepReadings(house, reader) : keepEntries(house, reader);
}

async function keepReadings(house: ImportHouse, { table, read }: Reader): Promise<ImportDone> {
  const done = { kept: 0, known: 0, conflicting: 0, thinned: 0, refused: 0 };
  const probes = new Set<ReturnType<typeof house.probes.of>>();
  let waiting: Reading[] = [];
  let rows = 0;
  const keep = async () => {
    const batch = waiting;
    waiting = [];
    if (batch.length === 0) return;
    const { outcomes, newCount, duplicateCount, conflictCount, beforeHorizonCount } =
      await house.readings.append(batch);
    done.kept += newCount;
    done.known += duplicateCount;
    done.conflicting += conflictCount;
    done.thinned += beforeHorizonCount;
    // As for what comes in by itself: the watches hear of it once it is safe, and go back where it is late.
    batch.forEach((reading, i) => {
      if (outcomes[i] === appended.new) probes.add(house.probes.record(reading));
    });
  };
  try {
    for await (const { cells } of table.rows()) {
      if (++rows > importLimits.rows) throw tooMany();
      const found = read(cells);
      if ('readings' in found) {
        waiting.push(...found.readings);
        done.refused += found.refused.length;
      } else done.refused += 1;
      if (waiting.length >= appendRows) await keep();
    }
    await keep();
  } finally {
    for (const known of probes) house.hub.publish('probe', `${known.site}/${known.probe}`, probeView(known));
    await house.watch.broughtIn(probes);
  }
  return done;
}

async function keepEntries(house: ImportHouse, { table, read }: Reader): Promise<ImportDone> {
  const done = { kept: 0, known: 0, conflicting: 0, thinned: 0, refused: 0 };
  const { journal, clock, watch } = house;
  const desk = new JournalDesk({ journal, clock, acted: (pileId) => watch.reload(pileId) });
  const kept: EntryRecord[] = [];
  try {
    for await (const { cells } of table.rows()) {
      const found = read(cells);
      if (isRefusal(found) || 'readings' in found) {
        done.refused += 1;
        continue;
      }
      try {
        const { kept: outcome, record } = await desk.addQuietly(found.pileId, found.entry);
        done[outcome] += 1;
        if (outcome === 'kept') kept.push(record);
      } catch (error) {
        if (!(error instanceof ConflictError)) throw error;
        // Its id is known with other content, most often a later correction; or its photos are not here.
        if (error.pointer === '/id') done.conflicting += 1;
        else done.refused += 1;
      }
    }
  } finally {
    await desk.tellOf(kept);
  }
  return done;
}

function shownEntry(
  { pileId, entry }: ImportedEntry,
  batches: readonly BatchRecord[],
): ImportPreview['entries'][number] {
  const { id, at, by = null, note, photoIds, what } = entry;
  const record: EntryRecord = {
    id,
    entryId: id,
    version: 1,
    pileId,
    atMs: at,
    recordedAtMs: at,
    by,
    note: note || null,
    photoIds,
    what,
    reason: null,
    withdrawn: false,
  };
  const { versionId: _v, version: _n, recordedAt: _r, batchId: _b, ...shown } = entryView(record, batches);
  return shown;
}

function tooMany(): CsvError {
  return new CsvError(
    `The file has more than ${importLimits.rows} rows: part it and take the parts in one after the other`,
  );
}
