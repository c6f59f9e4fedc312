/** Whether the server is up and can work. */
import { z } from 'zod';
import { messageSchema } from '../messages/message.ts';
import { instantSchema } from './time.ts';

const partHealthSchema = z.object({
  state: z.enum(['ok', 'degraded', 'down', 'off']),
  /** For people: a program goes by the state. */
  detail: z.string(),
  messages: z.object({ detail: messageSchema }),
});

export const healthSchema = z.object({
  live: z.literal(true),
  ready: z.boolean(),
  version: z.string(),
  /** The time as the server tells it, and how fast it runs (1 when live). */
  now: instantSchema,
  speed: z.number(),
  /** Whether the rest of the API wants a bearer token. */
  needsToken: z.boolean(),
  /** Host and port a probe publishes to, for the welcome page. */
  broker: z.object({ url: z.string(), root: z.string() }),
  /** Where several processes share the sites: how many of them this one watches. */
  sitesHeld: z.number().int().optional(),
  parts: z.object({
    broker: partHealthSchema,
    readings: partHealthSchema,
    journal: partHealthSchema,
    /** Whether every pile is watched, and what it does is kept. */
    piles: partHealthSchema,
    /** How much room the data folder has. */
    disk: partHealthSchema,
    delivery: partHealthSchema,
    /** Whether every change is in the audit trail. */
    audit: partHealthSchema,
  }),
});
export type Health = z.infer<typeof healthSchema>;
