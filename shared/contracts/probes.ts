/** Probes known to the server, claimed or not. */
import { z } from 'zod';
import { nameSchema, positionSchema } from '../names.ts';
import { lastFields } from '../quantity.ts';
import { instantInputSchema, instantSchema } from './time.ts';

export const probeSchema = z.object({
  site: nameSchema,
  probe: nameSchema,
  /** Pile and position it is claimed for, or null while unclaimed. */
  claim: z.object({ pileId: z.string(), position: positionSchema, since: instantSchema }).nullable(),
  last: z.object(lastFields(z.number())),
  /** Newest reading of any quantity, as measured. */
  lastAt: instantSchema.nullable(),
  batteryV: z.number().nullable(),
  /** From the retained status topic; null when the probe never said. */
  online: z.boolean().nullable(),
  /** Added to each temperature before it is kept [K]. */
  temperatureOffsetC: z.number(),
  /** How it was recognised, of one that speaks in the way of its family; absent until it spoke since the start. */
  device: z
    .object({
      family: z.string(),
      /** As people named the device, or it names itself. */
      label: z.string(),
    })
    .optional(),
});
export type Probe = z.infer<typeof probeSchema>;

/** Of all probes, whatever was asked for. */
export const probeCountsSchema = z.object({
  all: z.number().int(),
  /** In no pile. */
  unclaimed: z.number().int(),
  /** Of new probes nothing is kept, at one site at least, until some are claimed or forgotten. */
  isFull: z.boolean(),
});
export type ProbeCounts = z.infer<typeof probeCountsSchema>;

/** Probes of one answer when no number is asked for, and at most. */
export const probesOfAnAnswer = 500;
const mostProbesOfAnAnswer = 2_000;

/** Asks for a part of the probes; all of it optional. */
export const probesQuestionSchema = z.object({
  /** yes: in a pile; no: in none. */
  claimed: z.enum(['yes', 'no']).optional(),
  site: nameSchema.optional(),
  /** Part of `site/probe`; of one in a pile also words of what people call pile, site and device, whatever case and accents. */
  find: z.string().max(200).optional(),
  /** name: those in a pile first, then by site and name. newest: who spoke last first. pile: by site, pile and position. */
  order: z.enum(['name', 'newest', 'pile']).optional(),
  offset: z.coerce.number().int().min(0).max(1_000_000).optional(),
  limit: z.coerce.number().int().min(1).max(mostProbesOfAnAnswer).optional(),
});
export type ProbesQuestion = z.infer<typeof probesQuestionSchema>;

export const probesAnswerSchema = z.object({
  probes: z.array(probeSchema),
  /** How many answer to the question, of which `probes` holds those from `offset` on. */
  total: z.number().int(),
  offset: z.number().int(),
  counts: probeCountsSchema,
});
export type ProbesAnswer = z.infer<typeof probesAnswerSchema>;

export const claimSchema = z.object({
  pileId: z.string().min(1).max(64),
  position: positionSchema,
  /** From when its readings count for the pile; the start of the batch when absent. */
  from: instantInputSchema.optional(),
});

/** Forgets every probe that answers to this and that no pile has or ever had, with all they said. */
export const forgetSchema = z.object({
  /** As in the question for the list; empty for all. */
  find: z.string().trim().max(200),
  site: nameSchema.optional(),
});

export const forgottenSchema = z.object({
  forgotten: z.number().int(),
  /** They once served a pile, so its record keeps them. */
  kept: z.number().int(),
});

/** A probe that is further off than this is to be changed [K]. */
export const mostOffsetK = 20;
export const calibrationSchema = z.object({ temperatureOffsetC: z.number().min(-mostOffsetK).max(mostOffsetK) });
