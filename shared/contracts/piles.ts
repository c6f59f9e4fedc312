/** Piles as the API shows and takes them. */
import { z } from 'zod';
import { measureReasons } from '../measure-reasons.ts';
import { messageSchema } from '../messages/message.ts';
import { nameSchema, positionSchema, stageSchema } from '../names.ts';
import { pileTroubleSchema } from '../pile-trouble.ts';
import { pileFields } from '../quantity.ts';
import { stageLimitsSchema } from '../stage.ts';
import { alarmStateSchema, phaseSchema, severitySchema, warningKindSchema } from '../warning.ts';
import { airAheadKeptSchema } from './air-ahead.ts';
import { actKindSchema, assumptionSchema, givenRecipeSchema } from './domain/batch.ts';
import { pastHeatSchema } from './past-heat.ts';
import { instantInputSchema, instantSchema } from './time.ts';

/** Last values at one position; absent keys were never measured there. */
const positionNowSchema = z.object({
  /** Absent where only a thermometer in a hand measures. */
  probe: nameSchema.optional(),
  ...pileFields(z.number()),
  /** Present while the temperature is doubted: it jumped from this, and the next reading decides. */
  doubted: z.object({ fromC: z.number(), fromAt: instantSchema }).optional(),
  /** When the newest of these values was measured. */
  at: instantSchema.optional(),
  /** The pile whose probe it is, where that is another: the air of the site was measured there and not here. */
  ofPile: z.string().optional(),
  /** No reading for longer than this probe's own rhythm allows; without a probe, that nobody measured for 18 hours. */
  silent: z.boolean(),
  /** What was last measured by hand there, while it speaks for the place: there is no probe, or none that can be believed. */
  byHand: z.object({ temperatureC: z.number(), at: instantSchema }).optional(),
});
export type PositionNow = z.infer<typeof positionNowSchema>;

/** By whom a sign was noted, null where the entry carries no name, and when. */
const notedSchema = z.object({ at: instantSchema, by: z.string().nullable() });

export const alarmSummarySchema = z.object({
  id: z.string(),
  kind: warningKindSchema,
  severity: severitySchema,
  state: alarmStateSchema,
  since: instantSchema,
  position: positionSchema.nullable(),
  /** What was seen, what to do, by when, and the caution that goes with it; temperatures in °C. */
  seen: z.string(),
  todo: z.string(),
  by: instantSchema.nullable(),
  caution: z.string().nullable(),
  /** The same as data; absent in what was kept before messages had codes. */
  messages: z.object({ seen: messageSchema, todo: messageSchema, caution: messageSchema.nullable() }).optional(),
  /** Whether what it is about holds now, as far as is known; shelving it silences it and changes nothing of that. */
  stands: z.boolean(),
  /** Who noted it and when, where it rests on a person's word; absent where probes saw it. */
  noted: notedSchema.optional(),
  /** The alarm that explains this one and therefore suppresses it. */
  suppressedBy: z.string().nullable(),
  /** The graver alarm whose advice `todo`, `by` and `caution` repeat in place of its own: the two would exclude each other. */
  yieldsTo: z.string().nullable(),
  /** Set while shelved. */
  shelvedUntil: instantSchema.nullable(),
});
export type AlarmSummary = z.infer<typeof alarmSummarySchema>;

const batchNowSchema = z.object({
  id: z.string(),
  startedAt: instantSchema,
  /** 0-100: activity-hours against what the stage needs. */
  progress: z.number().min(0).max(100),
  phase: phaseSchema,
  phaseReason: z.string(),
  /** What its places have been through; absent before the first look. */
  heat: pastHeatSchema.optional(),
  /** Moisture by the water balance, wet basis, with one standard deviation; absent while it is not known. */
  moisture: z
    .object({ frac: z.number(), sdFrac: z.number() })
    .optional()
    .describe('By the water balance, wet basis, as fractions of the wet mass, with one standard deviation'),
});

/** When a core that no probe measures should be measured by hand, and why then. */
const measureNextSchema = z.object({
  position: positionSchema,
  /** Past once it is due. */
  at: instantSchema,
  reason: z.enum(measureReasons),
  says: z.string(),
  messages: z.object({ says: messageSchema }),
});

/** How pressing the pile's sentence is; the page colours by it, never by it alone. Unknown until a batch was judged first. */
export const tones = ['calm', 'unknown', 'watch', 'act', 'danger'] as const;

export const pileSummarySchema = z.object({
  id: z.string(),
  name: z.string(),
  site: nameSchema,
  stage: stageSchema,
  batch: batchNowSchema.nullable(),
  positions: z.partialRecord(positionSchema, positionNowSchema),
  /** One plain sentence: how the pile is. Temperatures in °C. */
  condition: z.string(),
  /** What to do next, one plain sentence. */
  next: z.string(),
  /** The same as data; absent in what was kept before messages had codes. */
  messages: z.object({ condition: messageSchema, next: messageSchema }).optional(),
  tone: z.enum(tones),
  /** Absent where a probe measures the core. */
  measureNext: measureNextSchema.optional(),
  alarms: z.array(alarmSummarySchema),
  /** Why it is not judged as it should be; absent while all is well. */
  trouble: pileTroubleSchema.optional(),
});
export type PileSummary = z.infer<typeof pileSummarySchema>;

export const pilesAnswerSchema = z.object({ piles: z.array(pileSummarySchema) });

export const limitSchema = z.object({
  value: z.number(),
  unit: z.string(),
  origin: z.string(),
  messages: z.object({ origin: messageSchema }),
});

export const actRecordSchema = z.object({
  id: z.string(),
  kind: z.string(),
  at: instantSchema,
  amountL: z.number().optional(),
  depthM: z.number().optional(),
  rainMm: z.number().optional(),
  note: z.string().optional(),
});

/** What the judge makes of the pile beyond its sentence; null before the first look and without a batch. */
const judgementSchema = z.object({
  /** Whether the core passes its act limit within 12 hours if nobody touches the pile; null while it is not known. */
  overLimit: z.object({ likelihood: z.number().min(0).max(1), at: instantSchema.nullable() }).nullable(),
  /** Water that brings the bed into its band; never more than it holds. Null when it needs none. */
  waterToAdd: z
    .object({
      /** Null when the mass of the bed is not known. */
      litres: z.number().nullable(),
      litresPer10Kg: z.number(),
      fromFrac: z.number(),
      toFrac: z.number(),
    })
    .nullable(),
  /** What speaks for the batch being done; the last word is a person’s. */
  readiness: z.object({
    proposal: z.enum(['not-yet', 'turn-and-see', 'smell-and-look', 'confirmed']),
    points: z.array(
      z.object({
        what: z.string(),
        seen: z.boolean(),
        says: z.string(),
        messages: z.object({ says: messageSchema }),
      }),
    ),
    next: z.string(),
    messages: z.object({ next: messageSchema }),
  }),
  /** Turns and waterings seen in the curves that nobody wrote down. */
  detectedInterventions: z.array(z.object({ kind: z.enum(['turned', 'watered']), at: instantSchema })),
});

/** A probe and a thermometer in a hand within the hour of each other, and what they make of the probe. */
const handDifferenceSchema = z.object({
  position: positionSchema,
  /** Of the probe. */
  site: nameSchema,
  probe: nameSchema,
  /** When it was measured by hand. */
  at: instantSchema,
  handC: z.number(),
  probeC: z.number(),
  /** By hand less by the probe [K]. */
  differenceK: z.number(),
  /** The offset that the probe would have then, the one it has now included. */
  offsetC: z.number(),
});
export type HandDifference = z.infer<typeof handDifferenceSchema>;

/** Of which measurement the difference is taken over. */
export const takeDifferenceSchema = z.object({ position: positionSchema, at: instantInputSchema });

export const pileDetailSchema = pileSummarySchema.extend({
  /** As given; what is absent was not. */
  recipe: givenRecipeSchema.nullable(),
  /** What the judge reckons with in the place of what was not given; what is in neither has no part in its sums. */
  assumed: z.array(assumptionSchema),
  limits: z.record(z.string(), limitSchema),
  acts: z.array(actRecordSchema),
  /** Everything that was looked at, warnings that do not stand included, so that the page can say why. */
  evidence: z.array(
    z.object({
      kind: warningKindSchema,
      position: positionSchema.nullable(),
      evidence: z.enum(['present', 'absent', 'missing']),
      /** What was seen, and the rule with its limits. */
      seen: z.string(),
      why: z.string(),
      messages: z.object({ seen: messageSchema, why: messageSchema }).optional(),
      /** The warning that explains this one and holds it back. */
      explainedBy: warningKindSchema.nullable(),
    }),
  ),
  judgement: judgementSchema.nullable(),
  /** Where a probe differs from what was measured by hand; absent in answers to changes. */
  handDifferences: z.array(handDifferenceSchema).optional(),
  /** The foretold air that its band and forecast reckon with; absent while there is none. */
  airAhead: airAheadKeptSchema.omit({ kept: true }).optional(),
  /** The air of the site as it was foretold for now, where no probe says it; absent where one does. Never measured here. */
  siteAir: airAheadKeptSchema
    .pick({ source: true, messages: true, issuedAt: true })
    .extend({ temperatureC: z.number(), doubtK: z.number() })
    .optional(),
  /** The air of a neighbour that is gone by while the probe that should say it is silent. Never measured here. */
  neighbourAir: z
    .object({ pileId: z.string(), probe: nameSchema, temperatureC: z.number(), at: instantSchema })
    .optional(),
});
export type PileDetail = z.infer<typeof pileDetailSchema>;

export const newPileSchema = z.object({
  /** Lower-case id for addresses; made from the name when absent. */
  id: nameSchema.optional(),
  site: nameSchema,
  name: z.string().trim().min(1).max(80),
  stage: stageSchema,
  /** When the batch was laid; now when absent. */
  startedAt: instantInputSchema.optional(),
  recipe: givenRecipeSchema.optional(),
  /** Only what departs from the stage's own limits. */
  limits: stageLimitsSchema.partial().optional(),
});
export type NewPile = z.input<typeof newPileSchema>;

export const pileChangeSchema = z.object({
  name: z.string().trim().min(1).max(80).optional(),
  limits: stageLimitsSchema.partial().optional(),
});

export const finishBatchSchema = z.object({
  at: instantInputSchema.optional(),
  outcome: z.string().trim().max(2000).optional(),
});

export const newBatchSchema = newPileSchema
  .pick({ startedAt: true, recipe: true, limits: true })
  .extend({ stage: stageSchema });

export const newActSchema = z.object({
  kind: actKindSchema,
  at: instantInputSchema.optional(),
  amountL: z.number().positive().max(100_000).optional(),
  depthM: z.number().positive().max(3).optional(),
  rainMm: z.number().positive().max(500).optional(),
  note: z.string().trim().max(2000).optional(),
});
