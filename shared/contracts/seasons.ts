/**
 * Batches laid beside each other: which ones, their measures, their curves, and what went like them before.
 *
 * The choice of batches lives in the query, so an address is a comparison that can be passed on.
 */
import { z } from 'zod';
import { fieldCode } from '../messages/field-code.ts';
import { messageSchema } from '../messages/message.ts';
import { nameSchema, stageSchema } from '../names.ts';
import { warningKindSchema } from '../warning.ts';
import { coverSchema, materialSchema } from './domain/batch.ts';
import { batchViewSchema } from './lineage.ts';
import { newPileSchema } from './piles.ts';
import { instantSchema } from './time.ts';

/** At most so many batches are laid beside each other, the newest first. */
export const mostCompared = 120;
export const mostCurves = 60;

export const seasonIdSchema = z
  .string()
  .regex(/^-?\d{1,6}-(winter|spring|summer|autumn)$/, fieldCode('field.season-id'));

export const choiceSchema = z.object({
  stage: stageSchema.optional(),
  site: nameSchema.optional(),
  season: seasonIdSchema.optional(),
  /** Calendar year in which the batch was laid, on the site's clock. */
  year: z.coerce.number().int().min(1970).max(9999).optional(),
  material: materialSchema.optional(),
  /** Id of a starter lot that went into it, on whatever way. */
  starter: z.string().max(64).optional(),
  /** Everything that came of this lot or batch, and all it came from. */
  lineage: z
    .string()
    .regex(/^(lot|batch):.{1,64}$/, fieldCode('field.lineage-choice'))
    .optional(),
  /** These only, ids with commas between. */
  batches: z.string().max(8000).optional(),
  state: z.enum(['ended', 'all']).default('ended'),
});
export type Choice = z.output<typeof choiceSchema>;

const figure = z.number().nullable();

const measuresSchema = z.object({
  /** Age at the first value at or above 40 °C [h]. */
  hoursTo40: figure,
  peakC: figure,
  peakAfterH: figure,
  /** Hours in the comfortable band of its own limits, and above 50 and 60 °C. */
  comfortH: figure,
  above50H: figure,
  above60H: figure,
  /** Hours weighted by how well the culture could work in them; our own index. */
  activityH: figure,
  /** Heat above the air [K h]. */
  degreeH: figure,
  /** As it was laid. */
  depthM: figure,
  /** As said when laid; at the end by the water balance. */
  moistureStartFrac: figure,
  moistureEndFrac: figure,
  /** Water written down as given [L]; null where an amount is missing. */
  waterL: figure,
  turns: figure,
  /** How long alarms stood, one after the other or together [h]. */
  alarmH: figure,
  /** To a person's word that it is ready, else to its end when finished or taken on. */
  readyDays: figure,
  airMeanC: figure,
  lengthDays: z.number(),
  warmingAfterH: figure,
  /** Share of its time in which the core was measured, and how often a value came [h]. */
  measuredFrac: z.number(),
  everyH: figure,
  alarms: z.array(z.object({ kind: warningKindSchema, count: z.number().int(), hours: z.number() })),
});

const comparedBatchSchema = batchViewSchema.extend({
  siteName: z.string(),
  season: z.object({ id: z.string(), name: z.string() }),
  year: z.number().int(),
  /** Null where it was not given. */
  material: materialSchema.nullable(),
  cover: coverSchema.nullable(),
  depthM: z.number().nullable(),
  /** Starter lots it came from, on whatever way. */
  starters: z.array(z.object({ id: z.string(), name: z.string() })),
  measures: measuresSchema,
});
export type ComparedBatch = z.infer<typeof comparedBatchSchema>;

/** One season with how many batches were laid in it; `name` is the grower's own where there is one. */
const seasonViewSchema = z.object({
  id: z.string(),
  name: z.string(),
  usualName: z.string(),
  batches: z.number().int(),
});
export type SeasonView = z.infer<typeof seasonViewSchema>;

export const compareAnswerSchema = z.object({
  /** Newest first. */
  batches: z.array(comparedBatchSchema),
  /** Chosen, but not among those above as there are too many. */
  leftOut: z.number().int(),
  /** Everything that can be chosen from. */
  offers: z.object({
    seasons: z.array(seasonViewSchema),
    years: z.array(z.number().int()),
    sites: z.array(z.object({ id: z.string(), name: z.string() })),
    materials: z.array(materialSchema),
    starters: z.array(z.object({ id: z.string(), name: z.string() })),
  }),
});
export type CompareAnswer = z.infer<typeof compareAnswerSchema>;

/** One value per whole hour of age; null where it was not measured. */
const course = z.array(z.number().nullable());

const agedCurveSchema = z.object({
  id: z.string(),
  warmingAfterH: figure,
  coreC: course,
  airC: course,
});
export type AgedCurve = z.infer<typeof agedCurveSchema>;

export const curvesAnswerSchema = z.object({ curves: z.array(agedCurveSchema) });

/** Two groups of the batches chosen, parted by what they have in common. */
export const splits = ['material', 'site', 'year', 'season', 'starter', 'stage', 'cover', 'verdict'] as const;
export type Split = (typeof splits)[number];
export const differenceQuestionSchema = choiceSchema.extend({
  split: z.enum(splits),
  /** Ids of the two groups; the largest when left out. */
  one: z.string().max(200).default(''),
  other: z.string().max(200).default(''),
});

export type DifferenceQuestion = z.output<typeof differenceQuestionSchema>;

const groupSchema = z.object({ id: z.string(), name: z.string(), batches: z.number().int() });

export const differenceAnswerSchema = z.object({
  /** Every group there is, the largest first. */
  groups: z.array(groupSchema),
  /** The two compared; null when all batches are alike in this. */
  one: groupSchema.nullable(),
  other: groupSchema.nullable(),
  measures: z.array(
    z.object({
      /** As among the measures of a batch. */
      key: z.string(),
      /** Batches of each group in which it is known. */
      counts: z.tuple([z.number().int(), z.number().int()]),
      /** Hodges-Lehmann estimate of the first less the second; null when not known in one of them. */
      shift: figure,
      /** Holds the true shift in at least 95 of 100 such comparisons; null when there are too few batches to tell. */
      interval: z.tuple([z.number(), z.number()]).nullable(),
      /** Whether the interval lies wholly on one side of nothing. */
      apart: z.boolean(),
    }),
  ),
  /** What a reader must know with it: it does not say why, and some stand out by chance. */
  says: z.array(z.string()),
  messages: z.object({ says: z.array(messageSchema) }),
});
export type DifferenceAnswer = z.infer<typeof differenceAnswerSchema>;

export const seasonNameSchema = z.object({
  /** Null gives the season its usual name back. */
  name: z.string().trim().min(1).max(60).nullable(),
});

export const seasonsAnswerSchema = z.object({ seasons: z.array(seasonViewSchema) });

export const closestAnswerSchema = z.object({
  batch: comparedBatchSchema,
  /** Age of the running batch; only so much of the past ones was looked at [h]. */
  hours: z.number(),
  closest: z.array(
    z.object({
      batch: comparedBatchSchema,
      /** Between the cores so far, and by how it was laid and the air; in kelvins. */
      curveK: z.number(),
      conditionK: z.number(),
      distanceK: z.number(),
      acts: z.array(
        z.object({
          afterH: z.number(),
          kind: z.string(),
          amountL: z.number().nullable(),
          depthM: z.number().nullable(),
          note: z.string().nullable(),
          /** Done at an age the running batch has not reached yet. */
          ahead: z.boolean(),
        }),
      ),
    }),
  ),
  /** Of the batch and of those closest to it. */
  curves: z.array(agedCurveSchema),
  says: z.string(),
  messages: z.object({ says: messageSchema }),
});
export type ClosestAnswer = z.infer<typeof closestAnswerSchema>;

/** An earlier batch as it stands in a notebook or a log: a line per reading, core and perhaps air. */
export const earlierBatchSchema = z.object({
  site: nameSchema,
  name: z.string().trim().min(1).max(80),
  stage: stageSchema,
  recipe: newPileSchema.shape.recipe,
  outcome: z.string().trim().max(2000).optional(),
  /** "2029-04-03 24.5 12" or "2029-04-03 07:30; 24,5; 12": day, perhaps a time, core, perhaps air. A day alone is taken at noon. */
  table: z.string().min(1).max(900_000),
  dateOrder: z.enum(['day-first', 'month-first']).optional(),
  temperatureUnit: z.enum(['C', 'F']).default('C'),
  /** False only shows what would be kept. */
  keep: z.boolean().default(false),
});
export type EarlierBatch = z.input<typeof earlierBatchSchema>;

export const earlierAnswerSchema = z.object({
  /** Null as long as nothing is kept. */
  batchId: z.string().nullable(),
  from: instantSchema.nullable(),
  to: instantSchema.nullable(),
  core: z.number().int(),
  air: z.number().int(),
  highestC: z.number().nullable(),
  refused: z.array(
    z.object({
      line: z.number().int(),
      text: z.string(),
      reason: z.string(),
      messages: z.object({ reason: messageSchema }),
    }),
  ),
  /** Why it cannot be kept as it is. */
  problem: z.string().nullable(),
  messages: z.object({ problem: messageSchema.nullable() }),
});
export type EarlierAnswer = z.infer<typeof earlierAnswerSchema>;
