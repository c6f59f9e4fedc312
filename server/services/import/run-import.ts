/**
 * A file is shown first, and kept when the same file is handed in again. It never keeps anything in a preview, or
 * anything that the preview did not show.
 */
import type { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import type { ImportPreview, importDoneSchema } from '../../../shared/contracts/import.ts';
import { ConflictError } from '../../../shared/errors.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Reading } from '../../../shared/reading.ts';
import type { EntryRecord, Journal } from '../../../shared/store/journal.ts';
import { appended, type ReadingsStore } from '../../../shared/store/readings-store.ts';
import { type Beside, oneAnswer } from '../../beside/job.ts';
import type { PilePort } from '../../monitor/pile/pile-port.ts';
import { JournalService } from '../journal/journal-service.ts';
import type { LiveHub } from '../live/live-hub.ts';
import { type ProbeBook, probeView } from '../probes/probe-book.ts';
import type { ImportedEntry } from './entry-rows.ts';
import { importJob } from './import-job.ts';
import type { ImportPiece, ImportQuestion } from './read-file.ts';
import type { ImportAskRead } from './row-reader.ts';

type ImportDone = z.output<typeof importDoneSchema>;

export interface ImportParts {
  readonly journal: Journal;
  readonly readings: ReadingsStore;
  readonly clock: Clock;
  readonly probes: ProbeBook;
  readonly watch: PilePort;
  readonly hub: LiveHub;
  readonly beside: Beside;
}

async function questionOf(
  { journal, clock }: ImportParts,
  wanted: ImportQuestion['wanted'],
  ask: ImportAskRead,
): Promise<ImportQuestion> {
  const siteIds = (await journal.sites.list()).map(({ id }) => id);
  const isEntries = ask.kind === 'entries';
  const piles = isEntries ? await journal.piles.list() : [];
  const batches = isEntries ? await journal.batches.list() : [];
  return { wanted, ask, siteIds, piles, batches, nowMs: clock.nowMs() };
}

/** @throws {CsvError} When the file cannot be read as a table. */
export async function previewImport(
  parts: ImportParts,
  ask: ImportAskRead,
  signal: AbortSignal,
): Promise<ImportPreview> {
  const piece = await oneAnswer(parts.beside.run(importJob, await questionOf(parts, 'preview', ask), signal));
  if (piece.kind !== 'preview') throw new Error('a preview was asked for');
  return piece.preview;
}

/**
 * @param digest Of the preview.
 * @throws {ConflictError} When this is not what the preview showed, or the columns do not suffice.
 * @throws {CsvError} When the file cannot be read as a table.
 */
export async function commitImport(parts: ImportParts, ask: ImportAskRead, digest: string): Promise<ImportDone> {
  const pieces = parts.beside.run(importJob, await questionOf(parts, 'rows', ask));
  return ask.kind === 'readings' ? keepReadings(parts, pieces, digest) : keepEntries(parts, pieces, digest);
}

type Rows = Extract<ImportPiece, { kind: 'rows' }>;

async function* checkedRows(pieces: AsyncIterable<ImportPiece>, digest: string): AsyncGenerator<Rows> {
  for await (const piece of pieces) {
    if (piece.kind === 'rows') yield piece;
    else if (piece.kind === 'head') {
      if (piece.digest !== digest) {
        throw new ConflictError(message('import.not-previewed'), '/digest');
      }
      if (piece.problem !== null) throw new ConflictError(piece.problem, '/columns');
    }
  }
}

async function keepReadings(
  parts: ImportParts,
  pieces: AsyncIterable<ImportPiece>,
  digest: string,
): Promise<ImportDone> {
  const done = { kept: 0, known: 0, conflicting: 0, downsampled: 0, refused: 0 };
  const probes = new Set<ReturnType<typeof parts.probes.of>>();
  const keep = async (batch: readonly Reading[]) => {
    if (batch.length === 0) return;
    const { outcomes, newCount, duplicateCount, conflictCount, beforeHorizonCount } =
      await parts.readings.append(batch);
    done.kept += newCount;
    done.known += duplicateCount;
    done.conflicting += conflictCount;
    done.downsampled += beforeHorizonCount;
    // As for what comes in by itself: the watches hear of it once it is safe, and go back where it is late.
    batch.forEach((reading, i) => {
      if (outcomes[i] === appended.new) probes.add(parts.probes.record(reading));
    });
  };
  try {
    for await (const { readings, refused } of checkedRows(pieces, digest)) {
      done.refused += refused;
      await keep(readings);
    }
  } finally {
    for (const known of probes) parts.hub.publish('probe', `${known.site}/${known.probe}`, probeView(known));
    await parts.watch.broughtIn(probes);
  }
  return done;
}

async function keepEntries(
  parts: ImportParts,
  pieces: AsyncIterable<ImportPiece>,
  digest: string,
): Promise<ImportDone> {
  const done = { kept: 0, known: 0, conflicting: 0, downsampled: 0, refused: 0 };
  const { journal, readings, clock, watch } = parts;
  const service = new JournalService({ journal, readings, clock, acted: (pileId) => watch.reload(pileId) });
  const noted: Record<'kept' | 'known', EntryRecord[]> = { kept: [], known: [] };
  const keep = async ({ pileId, entry }: ImportedEntry) => {
    try {
      const { kept: outcome, record } = await service.addQuietly(pileId, entry);
      done[outcome] += 1;
      noted[outcome].push(record);
    } catch (error) {
      if (!(error instanceof ConflictError)) throw error;
      // Its id is known with other content, most often a later correction; or its photos are not here.
      if (error.pointer === '/id') done.conflicting += 1;
      else done.refused += 1;
    }
  };
  try {
    for await (const { entries, refused } of checkedRows(pieces, digest)) {
      done.refused += refused;
      for (const one of entries) await keep(one);
    }
  } finally {
    await service.notifyJudgeOf(noted.kept, noted.known);
  }
  return done;
}
