/** What is found of the whole farm by words that somebody types. */
import { z } from 'zod';
import { messageSchema } from '../messages/message.ts';
import { positionSchema, stageSchema } from '../names.ts';
import { instantSchema } from './time.ts';

/** So many of each kind are given; `count` says how many there are. */
export const mostFound = 20;
/** Entries of the journal that are looked through, the newest first. */
export const mostEntriesSearched = 20_000;

export const searchQuestionSchema = z.object({
  /** Words that must all be there, in any order, whatever case and accents; nothing is found by none. */
  find: z.string().max(200).default(''),
});

const found = <Item extends z.ZodType>(item: Item) =>
  z.object({ count: z.number().int(), found: z.array(item).max(mostFound) });

/** Where it is; a name that a person gave. */
const place = { pileId: z.string(), pileName: z.string(), siteName: z.string() };

export const searchAnswerSchema = z.object({
  piles: found(z.object({ id: z.string(), name: z.string(), siteName: z.string() })),
  batches: found(
    z.object({
      id: z.string(),
      name: z.string(),
      messages: z.object({ name: messageSchema }).optional(),
      ...place,
      stage: stageSchema,
      startedAt: instantSchema,
      endedAt: instantSchema.nullable(),
      /** What people wrote of how it came out, from where the words stand; null where name and place have them. */
      excerpt: z.string().nullable(),
    }),
  ),
  entries: found(
    z.object({
      id: z.string(),
      ...place,
      at: instantSchema,
      by: z.string().nullable(),
      says: z.string(),
      messages: z.object({ says: messageSchema }),
      /** Of its note, from where the words stand. */
      excerpt: z.string().nullable(),
    }),
  ),
  probes: found(
    z.object({
      site: z.string(),
      siteName: z.string(),
      probe: z.string(),
      deviceLabel: z.string().nullable(),
      /** Null while no pile has it. */
      claim: z.object({ pileId: z.string(), pileName: z.string(), position: positionSchema }).nullable(),
    }),
  ),
  /** False where the journal is longer than what was looked through. */
  isWhole: z.boolean(),
});
export type SearchAnswer = z.infer<typeof searchAnswerSchema>;
