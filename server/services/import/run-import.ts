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
import type { PilePort } from '../../pile/pile-port.ts';
import { Refusal } from '../../refusal.ts';
import { JournalService } from '../journal/journal-service.ts';
import type { LiveHub } from '../live/live-hub.ts';
import { type ProbeBook, probeView } from '../probes/probe-book.ts';
import type { ImportedEntry } from './entry-rows.ts';
import { importJob } from './import-job.ts';
import type { ImportHow, ImportPiece, ImportQuestion } from './read-file.ts';

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
  body: Uint8Array,
): Promise<ImportQuestion> {
  const siteIds = (await journal.sites.list()).map(({ id }) => id);
  const [piles, batches] = [await journal.piles.list(), await journal.batches.list()];
  return { wanted, body, siteIds, piles, batches, nowMs: clock.nowMs() };
}

/**
 * @param body The request's, which is the caller's no more.
 * @throws {CsvError} When the file cannot be read as a table.
 * @throws {Refusal} When the body is not what is asked for.
 */
export async function previewImport(parts: ImportParts, body: Uint8Array, signal: AbortSignal): Promise<ImportPreview> {
  const piece = await oneAnswer(parts.beside.run(importJob, await questionOf(parts, 'preview', body), signal));
  if (piece.kind === 'refused') throw new Refusal(400, piece.said, piece);
  if (piece.kind !== 'preview') throw new Error('a preview was asked for');
  return piece.preview;
}

/**
 * @param body The request's, which is the caller's no more.
 * @param onBegun What is kept, and how, before the first row is.
 * @throws {ConflictError} When this is not what the preview showed, or the columns do not suffice.
 * @throws {CsvError} When the file cannot be read as a table.
 * @throws {Refusal} When the body is not what is asked for.
 */
export async function commitImport(
  parts: ImportParts,
  body: Uint8Array,
  onBegun: (how: ImportHow) => void,
): Promise<ImportDone> {
  const done = { kept: 0, known: 0, conflicting: 0, downsampled: 0, refused: 0 };
  const [readings, entries] = [keepReadings(parts, done), keepEntries(parts, done)];
  try {
    for await (const piece of parts.beside.run(importJob, await questionOf(parts, 'rows', body))) {
      if (piece.kind === 'refused') throw new Refusal(400, piece.said, piece);
      if (piece.kind === 'head') {
        refuseUnlikePreview(piece);
        onBegun(piece.how);
      }
      if (piece.kind !== 'rows') continue;
      done.refused += piece.refused;
      await readings.keep(piece.readings);
      for (const entry of piece.entries) await entries.keep(entry);
    }
  } finally {
    await readings.end();
    await entries.end();
  }
  return done;
}

function refuseUnlikePreview({ how, digest, problem }: Extract<ImportPiece, { kind: 'head' }>): void {
  if (digest !== how.digest) throw new ConflictError(message('import.not-previewed'), '/digest');
  if (problem !== null) throw new ConflictError(problem, '/columns');
}

function keepReadings(parts: ImportParts, done: ImportDone) {
  const probes = new Set<ReturnType<typeof parts.probes.of>>();
  return {
    async keep(batch: readonly Reading[]): Promise<void> {
      if (batch.length === 0) return;
      const { outcomes, newCount, duplicateCount, conflictCount, beforeWatermarkCount } =
        await parts.readings.append(batch);
      done.kept += newCount;
      done.known += duplicateCount;
      done.conflicting += conflictCount;
      done.downsampled += beforeWatermarkCount;
      // As for what comes in by itself: the watches hear of it once it is safe, and go back where it is late.
      batch.forEach((reading, i) => {
        if (outcomes[i] === appended.new) probes.add(parts.probes.record(reading));
      });
    },
    async end(): Promise<void> {
      for (const known of probes) parts.hub.publish('probe', `${known.site}/${known.probe}`, probeView(known));
      await parts.watch.broughtIn(probes);
    },
  };
}

function keepEntries({ journal, readings, clock, watch }: ImportParts, done: ImportDone) {
  const service = new JournalService({ journal, readings, clock, acted: (pileId) => watch.reload(pileId) });
  const noted: Record<'kept' | 'known', EntryRecord[]> = { kept: [], known: [] };
  return {
    async keep({ pileId, entry }: ImportedEntry): Promise<void> {
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
    },
    end: () => service.notifyJudgeOf(noted.kept, noted.known),
  };
}
