/**
 * shared/api/probes.ts: probes known to the house, claimed or not.
 */
import { z } from 'zod';
import { nameSchema, positionSchema } from '../names.ts';
import { instantInputSchema, instantSchema } from './time.ts';

export const probeSchema = z.object({
  site: nameSchema,
  probe: nameSchema,
  /** Pile and position it is claimed for, or null while unclaimed. */
  claim: z.object({ pileId: z.string(), position: positionSchema, since: instantSchema }).nullable(),
  last: z.object({
    temperatureC: z.number().optional(),
    humidityPct: z.number().optional(),
    moisturePct: z.number().optional(),
    co2Ppm: z.number().optional(),
    rssiDbm: z.number().optional(),
  }),
  /** Newest reading of any quantity, as measured. */
  lastAt: instantSchema.nullable(),
  batteryV: z.number().nullable(),
  /** From the retained status topic; null when the probe never said. */
  online: z.boolean().nullable(),
  /** Added to each temperature before it is kept [K]. */
  temperatureOffsetC: z.number(),
});
export type Probe = z.infer<typeof probeSchema>;

export const probesAnswerSchema = z.object({ probes: z.array(probeSchema) });

export const claimSchema = z.object({
  pileId: z.string().min(1).max(64),
  position: positionSchema,
  /** From when its readings count for the pile; the start of the batch when absent. */
  from: instantInputSchema.optional(),
});

export const calibrationSchema = z.object({ temperatureOffsetC: z.number().min(-20).max(20) });
