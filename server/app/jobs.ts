/**
 * What is worked out beside the main thread: what a person hands in or asks for, of a size that they choose.
 */
import type { Job } from '../beside/job.ts';
import { importJob } from '../services/import/import-job.ts';
import { recordJob } from '../services/records/pdf/record-job.ts';

/** By name, for the thread. */
export const jobs: readonly Job<never, unknown>[] = [importJob, recordJob];
