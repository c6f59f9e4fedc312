/**
 * How lots become batches and batches become other batches, until they lie on beds.
 *
 * A flow leads from what was there to what came of it, with the amount that went over; no flow leads back into its own
 * past.
 */
import { z } from 'zod';
import { fieldCode } from '../messages/field-code.ts';
import { messageSchema } from '../messages/message.ts';
import { stageSchema } from '../names.ts';
import { newPileSchema } from './piles.ts';
import { instantInputSchema, instantSchema } from './time.ts';
import { batchVerdictSchema } from './verdict.ts';

export const lineageKinds = ['lot', 'batch', 'use'] as const;
const lineageKindSchema = z.enum(lineageKinds);
export type LineageKind = z.infer<typeof lineageKindSchema>;

/** How it went over: mixed in, moved to the next stage, split off, put together, used, or kept as a lot. */
export const flowWays = ['input', 'continued', 'split', 'merged', 'used', 'kept'] as const;
const flowWaySchema = z.enum(flowWays);
export type FlowWay = z.infer<typeof flowWaySchema>;

/** How a batch ended. */
export const endings = ['finished', 'continued', 'split', 'merged', 'used', 'abandoned'] as const;
const endingSchema = z.enum(endings);
export type Ending = z.infer<typeof endingSchema>;

const massKg = z.number().positive().max(1_000_000);
const volumeL = z.number().positive().max(1_000_000);
const words = (max: number) => z.string().trim().min(1).max(max);

/** Where a new batch is laid: on a pile that is free, or on a new one. */
export const layOnSchema = z.union([
  z.object({ pileId: words(64) }),
  z.object({ newPile: newPileSchema.pick({ id: true, site: true, name: true }) }),
]);

const inputSchema = z.object({ lotId: words(64), massKg: massKg.optional(), volumeL: volumeL.optional() });

const laid = {
  on: layOnSchema,
  at: instantInputSchema.optional(),
  name: words(80).optional(),
  recipe: newPileSchema.shape.recipe,
  limits: newPileSchema.shape.limits,
  inputs: z.array(inputSchema).max(20).default([]),
};

/** Part of a batch, or all that is left of it. */
const takenSchema = z.object({ batchId: words(64), massKg: massKg.optional(), all: z.boolean().default(false) });

/** On to the next stage, all of it or a part; what is not taken stays where it lies. */
export const continueBatchSchema = z.object({
  ...laid,
  stage: stageSchema,
  massKg: massKg.optional(),
  all: z.boolean().default(true),
});
/** Parts taken off; what is left stays the batch it was. */
export const splitBatchSchema = z.object({
  at: instantInputSchema.optional(),
  parts: z
    .array(z.object({ on: layOnSchema, massKg, name: words(80).optional(), recipe: newPileSchema.shape.recipe }))
    .min(1)
    .max(20),
  /** Nothing is left where it lay. */
  all: z.boolean().default(false),
});
/** Several batches put together into a new one of the same stage or the next. */
export const mergeBatchesSchema = z.object({
  ...laid,
  stage: stageSchema,
  from: z
    .array(takenSchema.extend({ all: z.boolean().default(true) }))
    .min(2)
    .max(20),
});

export const abandonSchema = z.object({
  at: instantInputSchema.optional(),
  /** Why, in the person's words. */
  reason: words(2000),
});

/** What is left out stays; null takes it away. */
export const outcomeSchema = z.object({
  outcome: z.string().trim().max(2000).nullish(),
  name: words(80).nullish(),
});

export const addInputSchema = inputSchema.extend({ at: instantInputSchema.optional() });

export const useTargets = ['bed', 'compost', 'potting', 'store', 'given-away', 'other'] as const;
export const newUseSchema = z.object({
  target: z.enum(useTargets),
  /** Which bed or heap, in the person's words, e.g. "Bed 3, upper terrace". */
  place: words(120),
  at: instantInputSchema.optional(),
  massKg: massKg.optional(),
  volumeL: volumeL.optional(),
  areaM2: z.number().positive().max(10_000_000).optional(),
  by: words(80).optional(),
  note: z.string().trim().max(2000).optional(),
  /** Nothing of the batch is left: it ends here. */
  all: z.boolean().default(false),
});
export type NewUse = z.input<typeof newUseSchema>;

/** Part of a batch kept as a starter lot. */
export const keepLotSchema = z.object({
  name: words(80),
  storage: words(200).optional(),
  at: instantInputSchema.optional(),
  massKg: massKg.optional(),
  volumeL: volumeL.optional(),
});

const useSchema = z.object({
  id: z.string(),
  batchId: z.string(),
  target: z.enum(useTargets),
  place: z.string(),
  at: instantSchema,
  massKg: z.number().nullable(),
  volumeL: z.number().nullable(),
  areaM2: z.number().nullable(),
  /** Mass over area, where both are known. */
  rateKgPerM2: z.number().nullable(),
  by: z.string().nullable(),
  note: z.string().nullable(),
});
export type Use = z.infer<typeof useSchema>;

const flowSchema = z.object({
  id: z.string(),
  from: z.object({ kind: lineageKindSchema, id: z.string() }),
  to: z.object({ kind: lineageKindSchema, id: z.string() }),
  way: flowWaySchema,
  at: instantSchema,
  massKg: z.number().nullable(),
  volumeL: z.number().nullable(),
});
export type FlowView = z.infer<typeof flowSchema>;

export const lineageNodeSchema = z.object({
  kind: lineageKindSchema,
  id: z.string(),
  name: z.string(),
  /** One line of facts, e.g. "bran, laid 3 Apr 2031 on Cart shed". */
  says: z.string(),
  at: instantSchema,
  /** Steps from the start: below 0 towards where it came from, above 0 towards where it went; 0 is the start. */
  step: z.number().int(),
  /** Share of the start that went into it, downstream only; null where an amount on the way was not written down. */
  share: z.number().min(0).nullable(),
  stage: stageSchema.nullable(),
  ending: endingSchema.nullable(),
  messages: z.object({ says: messageSchema, name: messageSchema.optional() }),
});
export type LineageNode = z.infer<typeof lineageNodeSchema>;

export const lineageQuerySchema = z.object({
  /** "lot:<id>", "batch:<id>" or "use:<id>"; everything when absent. */
  start: z
    .string()
    .regex(/^(lot|batch|use):.{1,64}$/, fieldCode('field.lineage-start'))
    .optional(),
  way: z.enum(['up', 'down', 'both']).default('both'),
});

export const lineageAnswerSchema = z.object({
  start: z.object({ kind: lineageKindSchema, id: z.string() }).nullable(),
  nodes: z.array(lineageNodeSchema),
  flows: z.array(flowSchema),
});
export type LineageAnswer = z.infer<typeof lineageAnswerSchema>;

/** What went in and out of a batch [kg]; null where an amount was not written down. */
const batchAmountsSchema = z.object({
  laidKg: z.number().nullable(),
  inKg: z.number().nullable(),
  outKg: z.number().nullable(),
  restKg: z.number().nullable(),
  /** Of a batch of which a part was taken unweighed: no more than this is left. */
  restAtMostKg: z.number().nullable(),
  /** Set when more was written down as taken than as laid. */
  remark: z.string().nullable(),
  messages: z.object({ remark: messageSchema.nullable() }),
});

/** Of a name that no person gave. */
const nameMessages = { messages: z.object({ name: messageSchema }).optional() };

export const batchViewSchema = z.object({
  id: z.string(),
  name: z.string(),
  ...nameMessages,
  pileId: z.string(),
  pileName: z.string(),
  site: z.string(),
  stage: stageSchema,
  startedAt: instantSchema,
  endedAt: instantSchema.nullable(),
  ending: endingSchema.nullable(),
  /** Why it was abandoned. */
  reason: z.string().nullable(),
  /** How it turned out, in the person's words. */
  outcome: z.string().nullable(),
  /** Null while nobody has judged it, and from servers before. */
  verdict: batchVerdictSchema.nullable().default(null),
});
export type BatchView = z.infer<typeof batchViewSchema>;

export const batchesQuerySchema = z.object({
  pile: z.string().max(64).optional(),
  stage: stageSchema.optional(),
  state: z.enum(['open', 'ended', 'all']).default('all'),
});
/** Newest first. */
export const batchesAnswerSchema = z.object({ batches: z.array(batchViewSchema) });

/** The hottest that was measured in the core of each, as Seasons has it [°C]; null where nothing was. */
export const batchPeaksAnswerSchema = z.object({
  peaks: z.array(z.object({ id: z.string(), peakC: z.number().nullable() })),
});
export type BatchPeaks = z.infer<typeof batchPeaksAnswerSchema>;

export const batchDetailSchema = batchViewSchema.extend({
  amounts: batchAmountsSchema,
  /** Flows into and out of it, withdrawn ones left out, with the name of what stands at the other end. */
  inputs: z.array(flowSchema.extend({ name: z.string(), ...nameMessages })),
  outputs: z.array(flowSchema.extend({ name: z.string(), ...nameMessages })),
  uses: z.array(useSchema),
});
export type BatchDetail = z.infer<typeof batchDetailSchema>;
