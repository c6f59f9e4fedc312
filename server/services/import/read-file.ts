/**
 * A file read row by row, away from the main thread: it needs nothing of the server but what the question holds.
 */
import { createHash } from 'node:crypto';
import {
  type ImportCommit,
  type ImportPreview,
  importAskSchema,
  importCommitSchema,
  importLimits,
} from '../../../shared/contracts/import.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import type { Reading } from '../../../shared/reading.ts';
import type { BatchRecord, EntryRecord, PileRecord } from '../../../shared/store/journal.ts';
import { entryView } from '../journal/entry-view.ts';
import { columnWords } from './column-guess.ts';
import { CsvError } from './csv-error.ts';
import { type CsvTable, readCsvTable } from './csv-table.ts';
import { entryColumnsProblem, entryReader, type ImportedEntry } from './entry-rows.ts';
import { type BodyRefused, readBody } from './read-body.ts';
import { type ReadRow, readingColumnsProblem, readingReader } from './reading-rows.ts';
import { type Columns, columnsOf, type ImportAskRead, longCell, type Refusal } from './row-reader.ts';

export interface ImportQuestion {
  readonly wanted: 'preview' | 'rows';
  /** The request's, as it came. */
  readonly body: Uint8Array;
  readonly siteIds: readonly string[];
  readonly piles: readonly PileRecord[];
  readonly batches: readonly BatchRecord[];
  readonly nowMs: number;
}

/** What was asked for, but the file. */
export type ImportHow = Omit<ImportCommit, 'csv'> & { readonly csvCharacters: number };

/** A preview is one piece. Rows begin with how they are read, and come a few at a time. */
export type ImportPiece =
  | BodyRefused
  | { readonly kind: 'preview'; readonly preview: ImportPreview }
  | {
      readonly kind: 'head';
      readonly how: ImportHow;
      /** Of what was handed in; that in `how` is of what the preview showed. */
      readonly digest: string;
      /** What the columns lack. */
      readonly problem: Message | null;
    }
  | {
      readonly kind: 'rows';
      readonly readings: readonly Reading[];
      readonly entries: readonly ImportedEntry[];
      /** Rows and single cells. */
      readonly refused: number;
    };

/** What is kept at once holds the main thread for some milliseconds. */
const readingsAtOnce = 2000;
const entriesAtOnce = 50;

interface Reader {
  readonly table: CsvTable;
  readonly columns: Columns;
  readonly problem: Message | null;
  /** What a row holds. */
  readonly read: (cells: readonly string[]) => ReadRow | ImportedEntry | Refusal;
}

const isRefusal = (found: ReadRow | ImportedEntry | Refusal): found is Refusal => 'said' in found;

/** @throws {CsvError} When the file cannot be read as a table. */
export async function* run(question: ImportQuestion): AsyncGenerator<ImportPiece> {
  if (question.wanted === 'preview') {
    const ask = readBody(question.body, importAskSchema);
    if ('said' in ask) yield ask;
    else yield { kind: 'preview', preview: await previewOf(question, ask) };
    return;
  }
  const ask = readBody(question.body, importCommitSchema);
  if ('said' in ask) {
    yield ask;
    return;
  }
  const reader = openReader(question, ask);
  const { csv, ...how } = ask;
  yield {
    kind: 'head',
    how: { ...how, csvCharacters: csv.length },
    digest: digestOf(ask),
    problem: reader.problem,
  };
  yield* rowsOf(reader);
}

function openReader({ siteIds, piles, nowMs }: ImportQuestion, ask: ImportAskRead): Reader {
  const table = readCsvTable(ask.csv);
  const columns = columnsOf(table, ask);
  const shared = { columns, ask, decimalComma: table.decimalComma, nowMs };
  if (ask.kind === 'readings') {
    const manner = { ...shared, sites: new Set(siteIds) };
    const read = bounded(columns, readingReader(manner));
    return { table, columns, problem: readingColumnsProblem(manner), read };
  }
  const manner = { ...shared, piles };
  return { table, columns, problem: entryColumnsProblem(manner), read: bounded(columns, entryReader(manner)) };
}

/** A row is only looked at once none of its cells is too long. */
function bounded<Row>(columns: Columns, read: (cells: readonly string[]) => Row) {
  return (cells: readonly string[]): Row | Refusal => longCell(columns, cells) ?? read(cells);
}

/** Of all that decides what is kept. */
function digestOf({ csv, ...how }: ImportAskRead): string {
  const said = Object.fromEntries(
    Object.entries(how)
      .filter(([key]) => key !== 'digest')
      .sort(),
  );
  return createHash('sha256').update(JSON.stringify(said)).update('\0').update(csv).digest('hex');
}

async function previewOf(question: ImportQuestion, ask: ImportAskRead): Promise<ImportPreview> {
  const { batches, nowMs } = question;
  const reader = openReader(question, ask);
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
      const { column, said } = refusal;
      refused.push({
        line,
        column,
        ...inWords({ reason: said }, nowMs),
        text: cells.join(table.delimiter).slice(0, 300),
      });
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
      return {
        heading,
        became,
        ...inWords({ says: columnWords(became, ask) }, nowMs),
        examples: examples.map((example) => example.slice(0, 300)),
      };
    }),
    ...inWords({ problem: reader.problem }, nowMs),
    rows,
    from: Number.isFinite(fromMs) ? toInstant(fromMs) : null,
    to: Number.isFinite(toMs) ? toInstant(toMs) : null,
    refused,
    readings: readings
      .slice(0, importLimits.acceptedShown)
      .map(({ atMs, ...reading }) => ({ ...reading, at: toInstant(atMs) })),
    entries: entries.map((one) => shownEntry(one, batches)),
  };
}

async function* rowsOf({ table, read }: Reader): AsyncGenerator<ImportPiece> {
  let [readings, entries, refused, rows]: [Reading[], ImportedEntry[], number, number] = [[], [], 0, 0];
  for await (const { cells } of table.rows()) {
    if (++rows > importLimits.rows) throw tooMany();
    const found = read(cells);
    if (isRefusal(found)) refused += 1;
    else if ('readings' in found) {
      readings.push(...found.readings);
      refused += found.refused.length;
    } else entries.push(found);
    if (readings.length < readingsAtOnce && entries.length < entriesAtOnce) continue;
    yield { kind: 'rows', readings, entries, refused };
    [readings, entries, refused] = [[], [], 0];
  }
  yield { kind: 'rows', readings, entries, refused };
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
  return new CsvError(message('import.too-many-rows', { mostCount: importLimits.rows }));
}
