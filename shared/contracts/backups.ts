/** The backups that the server makes by itself each night. */
import { z } from 'zod';
import { instantSchema } from './time.ts';

export const backupsAnswerSchema = z.object({
  /** off: switched off; elsewhere: all that is kept is at servers, which have ways of their own to be saved. */
  state: z.enum(['on', 'off', 'elsewhere']),
  folder: z.string().nullable(),
  /** How many nightly ones are kept. */
  keep: z.number().int(),
  /** When the newest good one was made: it was opened and read back. */
  lastGoodAt: instantSchema.nullable(),
  /** Older than three days, which owners are notified of. */
  isOld: z.boolean(),
  /** Newest first; those made before an update too. */
  backups: z.array(z.object({ name: z.string(), madeAt: instantSchema, bytes: z.number().int() })),
  /** Why the last try, or the command that brings it elsewhere, went wrong. */
  problem: z.string().nullable(),
});
export type BackupsAnswer = z.infer<typeof backupsAnswerSchema>;
