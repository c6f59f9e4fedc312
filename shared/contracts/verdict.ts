/** How a batch came out in a person's words, and the reasons that what was measured and noted speaks for. */
import { z } from 'zod';
import { messageSchema } from '../messages/message.ts';
import { verdictReasons, verdicts } from '../verdict.ts';
import { instantSchema } from './time.ts';

/** A verdict is an entry of the journal of the pile, so it is written, corrected and struck out as entries are. */
export const batchVerdictSchema = z.object({
  verdict: z.enum(verdicts),
  /** What weighed most; null where only the note says so. */
  why: z.enum(verdictReasons).nullable(),
  note: z.string().nullable(),
  by: z.string().nullable(),
  at: instantSchema,
  entryId: z.string(),
  /** Name it as `replaces` when correcting. */
  versionId: z.string(),
  /** E.g. "Judged good: it grew white all through". */
  says: z.string(),
  messages: z.object({ says: messageSchema }),
});
export type BatchVerdict = z.infer<typeof batchVerdictSchema>;

export const verdictAnswerSchema = z.object({
  /** Null while nobody has judged the batch; that says nothing of how good it was. */
  verdict: batchVerdictSchema.nullable(),
  /** Reasons that the record speaks for, each with what it knows; the others may be chosen just as well. */
  offers: z.array(
    z.object({
      why: z.enum(verdictReasons),
      says: z.string(),
      messages: z.object({ says: messageSchema }),
    }),
  ),
});
export type VerdictAnswer = z.infer<typeof verdictAnswerSchema>;
