/** A file looked at, and the same file kept. */
import type { z } from 'zod';
import {
  type ImportAsk,
  type importCommitSchema,
  importDoneSchema,
  importPreviewSchema,
} from '../../../../shared/contracts/import.ts';
import { ask } from '../../data/client.ts';

export const previewImport = (body: ImportAsk) =>
  ask(importPreviewSchema, '/api/import/preview', { method: 'POST', body });
export const commitImport = (body: z.input<typeof importCommitSchema>) =>
  ask(importDoneSchema, '/api/import/commit', { method: 'POST', body });
