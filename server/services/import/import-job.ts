import { message } from '../../../shared/messages/message.ts';
import type { Job } from '../../beside/job.ts';
import { CsvError } from './csv-error.ts';
import type { ImportPiece, ImportQuestion } from './read-file.ts';

export const importJob: Job<ImportQuestion, ImportPiece> = {
  name: 'import',
  load: () => import('./read-file.ts'),
  handsOver: ({ body }) => body,
  longestMs: 60_000,
  tooLong: message('import.too-slow'),
  errors: { CsvError },
};
