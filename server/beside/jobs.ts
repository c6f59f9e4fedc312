/**
 * What is worked out beside the main thread: what a person hands in or asks for, of a size that they choose.
 */

import { CsvError } from '../services/import/csv-error.ts';
import type { ImportPiece, ImportQuestion } from '../services/import/read-file.ts';
import type { RecordQuestion } from '../services/records/pdf/record-job.ts';
import type { Job } from './job.ts';

export const importJob: Job<ImportQuestion, ImportPiece> = {
  name: 'import',
  load: () => import('../services/import/read-file.ts'),
  longestMs: 60_000,
  tooLong: 'This file takes longer than a minute to read. Part it, and bring the parts in one after the other.',
  errors: { CsvError },
};

export const recordJob: Job<RecordQuestion, Uint8Array> = {
  name: 'record',
  load: () => import('../services/records/pdf/record-job.ts'),
  longestMs: 60_000,
  tooLong: 'This record takes longer than a minute to draw. Its entries and readings can be taken out as CSV or JSON.',
};

/** By name, for the thread. */
export const jobs: readonly Job<never, unknown>[] = [importJob, recordJob];
