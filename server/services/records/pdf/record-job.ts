import type { Job } from '../../../beside/job.ts';
import type { RecordQuestion } from './draw-record.ts';

export const recordJob: Job<RecordQuestion, Uint8Array> = {
  name: 'record',
  load: () => import('./draw-record.ts'),
  longestMs: 60_000,
  tooLong: 'This record takes longer than a minute to draw. Its entries and readings can be taken out as CSV or JSON.',
};
