/**
 * What `GET /api/live` streams as server-sent events (WHATWG HTML, section 9.2).
 *
 * Each event's `event:` is one of the names below and its `data:` the JSON of the schema. On connecting, one `hello`.
 * Changes are gathered for up to 250 ms, so a busy pile is sent once, whole.
 */
import { z } from 'zod';
import { pileSummarySchema } from './piles.ts';
import { probeCountsSchema, probeSchema } from './probes.ts';
import { instantSchema } from './time.ts';

export const liveEventSchemas = {
  hello: z.object({ now: instantSchema, speed: z.number() }),
  pile: pileSummarySchema,
  'pile-gone': z.object({ id: z.string() }),
  probe: probeSchema,
  /** There are more or fewer probes, or so many spoke at once that they are not listed one by one: fetch what you show. */
  probes: probeCountsSchema,
  /** Every 15 s, so that a dead line is noticed. */
  beat: z.object({ now: instantSchema }),
} as const;
export type LiveEventName = keyof typeof liveEventSchemas;
