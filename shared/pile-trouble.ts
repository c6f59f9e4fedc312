/**
 * Why a pile is not judged as it should be: part of it cannot be read, or what it does cannot be kept.
 */
import { z } from 'zod';
import { instantSchema } from './contracts/time.ts';
import { messageSchema } from './messages/message.ts';

const pileTroubleCodes = [
  'batch-unreadable',
  'records-unreadable',
  'readings-unreadable',
  'not-judged',
  'not-kept',
] as const;
export type PileTroubleCode = (typeof pileTroubleCodes)[number];

export const pileTroubleSchema = z.object({
  code: z.enum(pileTroubleCodes),
  /** Whether it is watched all the same. */
  judged: z.boolean(),
  since: instantSchema,
  /** One plain sentence, and what to do. */
  says: z.string(),
  todo: z.string(),
  /** The same as data; absent in what was kept before messages had codes. */
  messages: z.object({ says: messageSchema, todo: messageSchema }).optional(),
  /** What the program met, for whoever mends it: a row, a file, an error. */
  details: z.array(z.string()),
});
export type PileTrouble = z.infer<typeof pileTroubleSchema>;
