import { message } from '../../../../shared/messages/message.ts';
import type { Job } from '../../../beside/job.ts';
import type { RecordQuestion } from './draw-record.ts';

export const recordJob: Job<RecordQuestion, Uint8Array> = {
  name: 'record',
  load: () => import('./draw-record.ts'),
  longestMs: 60_000,
  tooLong: message('problem.work.record-too-long'),
};
