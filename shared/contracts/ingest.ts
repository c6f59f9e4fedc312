/** What came in and was refused, and what came in on topics that are not ours. */
import { z } from 'zod';
import { refusalReasons } from '../errors.ts';
import { messageSchema } from '../messages/message.ts';
import { foreignUnits, quantitySchema } from '../quantity.ts';
import { instantSchema } from './time.ts';

export const refusalSchema = z.object({
  reason: z.enum(refusalReasons),
  /** What the reason means and what to do about it. */
  meaning: z.string(),
  /** The same as data. */
  messages: z.object({ meaning: messageSchema }),
  count: z.number().int(),
  last: z.object({
    at: instantSchema,
    topic: z.string(),
    /** At most 200 characters, control characters shown as escapes. */
    payload: z.string(),
    message: z.string(),
    messages: z.object({ message: messageSchema }),
  }),
});
export const refusalsAnswerSchema = z.object({
  /** Since when these are counted. */
  since: instantSchema,
  total: z.number().int(),
  refusals: z.array(refusalSchema),
});
export type RefusalsAnswer = z.infer<typeof refusalsAnswerSchema>;

/** A message on a topic that is not ours. */
export const foreignMessageSchema = z.object({ at: instantSchema, topic: z.string(), payload: z.string() });

/** A value that stands in a message: where a mapping finds it, and what it seems to be. */
const messageValueSchema = z.object({
  pointer: z.string(),
  each: z.string().optional(),
  only: z.object({ pointer: z.string(), is: z.string() }).optional(),
  /** Names from the outside in, as a person reads them. */
  path: z.array(z.string()),
  /** As it stands there. */
  text: z.string(),
  quantity: quantitySchema.nullable(),
  unit: z.enum(foreignUnits).nullable(),
});
export type MessageValue = z.infer<typeof messageValueSchema>;

export const messageContentSchema = z.object({
  /** Numbers, and texts that hold one; the first 100. */
  values: z.array(messageValueSchema),
  /** Texts that may name a probe. */
  names: z.array(z.object({ pointer: z.string(), each: z.string().optional(), text: z.string() })),
  /** Where it seems to say when it was measured, and whether that is a local time without offset. */
  time: z.object({ pointer: z.string(), isLocal: z.boolean() }).nullable(),
});
export type MessageContent = z.infer<typeof messageContentSchema>;

const heardMessageSchema = foreignMessageSchema.extend({
  /** It lay in the broker for nobody knows how long. */
  isRetained: z.boolean(),
  /** A mapping or a family of devices knows what to make of it, be it nothing. */
  isUsed: z.boolean(),
  /** That its sender has a key for. */
  site: z.string().nullable(),
  content: messageContentSchema,
});
export type HeardMessage = z.infer<typeof heardMessageSchema>;
export const foreignMessagesAnswerSchema = z.object({ messages: z.array(heardMessageSchema) });
