/** A pile's readings over time, gathered into at most `points` buckets per position. */
import { z } from 'zod';
import { messageSchema } from '../messages/message.ts';
import { positionSchema } from '../names.ts';
import { pileFields } from '../quantity.ts';
import { instantInputSchema, instantSchema } from './time.ts';

/** The expected band from the model of the pile, from the grower's own finished batches, or as blended from both. */
const bandSources = ['both', 'model', 'own'] as const;
export type BandSource = (typeof bandSources)[number];

export const seriesQuerySchema = z.object({
  from: instantInputSchema.optional(),
  to: instantInputSchema.optional(),
  points: z.coerce.number().int().min(1).max(5000).default(500),
  /** Which expected band is shown; what is judged by is always both. */
  expected: z.enum(bandSources).default('both'),
});

/** `at` is the bucket's start; a bucket without readings is left out, so that a line breaks there. */
const bucketSchema = z.object({
  at: instantSchema,
  min: z.number(),
  mean: z.number(),
  max: z.number(),
  count: z.number().int(),
});
export type Bucket = z.infer<typeof bucketSchema>;

const bandPointSchema = z.object({ at: instantSchema, p10: z.number(), p50: z.number(), p90: z.number() });
export type BandPoint = z.infer<typeof bandPointSchema>;

const positionSeriesSchema = z.object({
  ...pileFields(z.array(bucketSchema)),
});

/** Measured with a thermometer in a hand: a point by itself, as nobody knows what was between two. */
export const handPointSchema = z.object({
  position: positionSchema,
  at: instantSchema,
  temperatureC: z.number(),
  entryId: z.string(),
});
export type HandPoint = z.infer<typeof handPointSchema>;

export const seriesAnswerSchema = z.object({
  from: instantSchema,
  to: instantSchema,
  /** Length of one bucket [ms]; the line is broken where two buckets lie further apart than two of these (and 3 report intervals). */
  bucketMs: z.number().int().positive(),
  positions: z.partialRecord(positionSchema, positionSeriesSchema),
  /** In no bucket, oldest first; absent where nobody measured. */
  byHand: z.array(handPointSchema).optional(),
  /** Core temperature the batch should show, 10 %, median and 90 %, with where it comes from. */
  expected: z.object({
    origin: z.string(),
    messages: z.object({ origin: messageSchema }),
    points: z.array(bandPointSchema),
    /** How many finished batches of the grower's own speak in it; absent while none do. */
    ownBatches: z.number().int().optional(),
  }),
  /** The core's next 24 hours, hour by hour, if nobody touches the pile; null while it is not known. */
  forecast: z.object({ points: z.array(bandPointSchema) }).nullable(),
});
export type SeriesAnswer = z.infer<typeof seriesAnswerSchema>;
