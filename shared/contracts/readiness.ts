/** What the probes saw beside what a person smelt and saw. Probes alone never say that it is ready. */
import { z } from 'zod';
import { judgements } from '../entry.ts';
import { messageSchema } from '../messages/message.ts';
import { evidences } from '../warning.ts';
import { instantSchema } from './time.ts';

/** Heat came; it was not so hot for so long that the culture may be lost; it fell back to the air; a turn brought none back. */
const heatSigns = ['heat-came', 'not-overheated', 'heat-fell', 'no-reheat'] as const;

export const readinessSchema = z.object({
  batchId: z.string(),
  signs: z.array(
    z.object({
      sign: z.enum(heatSigns),
      evidence: z.enum(evidences),
      says: z.string(),
      messages: z.object({ says: messageSchema }),
    }),
  ),
  /** The newest word of a person; null before any. */
  person: z
    .object({
      entryId: z.string(),
      at: instantSchema,
      by: z.string().nullable(),
      smell: z.enum(judgements),
      look: z.enum(judgements),
      ready: z.boolean(),
      note: z.string().nullable(),
    })
    .nullable(),
  /** True only when a person said so; then `says` still tells when the probes saw otherwise. */
  ready: z.boolean(),
  says: z.string(),
  /** What to look and smell for, in words. */
  good: z.array(z.string()),
  bad: z.array(z.string()),
  cautions: z.array(z.string()),
  messages: z.object({
    says: messageSchema,
    good: z.array(messageSchema),
    bad: z.array(messageSchema),
    cautions: z.array(messageSchema),
  }),
});
export type Readiness = z.infer<typeof readinessSchema>;
