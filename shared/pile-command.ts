/**
 * What a process that does not watch a pile may ask of the one that does.
 */
import { z } from 'zod';
import { nameSchema } from './names.ts';

const said = { by: z.string().optional(), note: z.string().optional() };

export const pileCommandSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('reload') }),
  z.object({ kind: z.literal('close-alarms') }),
  /** Stands for no pile, but for the site: a home automation hub came up. */
  z.object({ kind: z.literal('introduce') }),
  /** For the site as well. */
  z.object({ kind: z.literal('forget'), probes: z.array(z.object({ site: nameSchema, probe: nameSchema })) }),
  z.object({
    kind: z.literal('handle'),
    alarmId: z.string(),
    handling: z.discriminatedUnion('kind', [
      z.object({ kind: z.enum(['acknowledge', 'unshelve']), ...said }),
      z.object({ kind: z.literal('shelve'), minutes: z.number(), ...said }),
    ]),
  }),
]);
export type PileCommand = z.infer<typeof pileCommandSchema>;
