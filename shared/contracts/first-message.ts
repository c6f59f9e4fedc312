/** Whether anything came from a probe yet, and what kept it out: for whoever sets one up. */
import { z } from 'zod';
import { foreignMessageSchema, refusalSchema } from './ingest.ts';
import { brokerAddressSchema, refusedConnectionSchema } from './keys.ts';
import { instantSchema } from './time.ts';

/** What is older has nothing to do with the device that is being set up. */
export const obstacleMinutes = 15;

export const firstMessageAnswerSchema = z.object({
  broker: brokerAddressSchema,
  /** Of the topics of probes. */
  root: z.string(),
  /** `embedded`: what the broker refused is known. `outside`: that broker knows. */
  authPolicy: z.enum(['embedded', 'outside']),
  /** Since the start. */
  first: z.object({ at: instantSchema, topic: z.string() }).nullable(),
  /** The last message that could not be read. */
  refused: refusalSchema.nullable(),
  /** The last on topics that nobody reads, the newest first. */
  unused: z.array(foreignMessageSchema),
  /** Connections that were turned away, the last first. */
  turnedAway: z.array(refusedConnectionSchema),
});
export type FirstMessageAnswer = z.infer<typeof firstMessageAnswerSchema>;
