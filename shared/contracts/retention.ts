/** For how long every reading is kept as it came, before ten-minute rollups stand for it. */
import { z } from 'zod';
import { instantSchema } from './time.ts';

/** Long enough that no batch that lies has its readings downsampled, whatever its stage. */
export const leastKeptDays = 30;
/** Offered in the settings; any other number of days may be chosen too. */
export const offeredKeptDays = [90, 365, 730] as const;

export const keptDaysSchema = z.int().min(leastKeptDays).max(36_500);

export const downsampledOnceSchema = z.object({
  startedAt: instantSchema,
  endedAt: instantSchema,
  /** Readings before this were downsampled. */
  before: instantSchema,
  removed: z.number().int(),
  /** How much smaller the readings are on disk; less than 0 when more came in meanwhile. */
  freedBytes: z.number().int(),
});
export type DownsampledOnce = z.infer<typeof downsampledOnceSchema>;

export const keepingAnswerSchema = z.object({
  /** Days after which readings are downsampled; null when never. */
  keptDays: keptDaysSchema.nullable(),
  /** Before this only rollups are kept; null when nothing was downsampled yet. */
  downsampledBefore: instantSchema.nullable(),
  /** Readings kept as they came, and all bytes on disk, rollups included. */
  rows: z.number().int(),
  bytes: z.number().int(),
  /** What a year takes up at the pace of the last seven days. */
  year: z.object({
    rows: z.number().int(),
    /** With every reading kept. */
    bytes: z.number().int(),
    /** Once it is downsampled; null where the database does not tell. */
    downsampledBytes: z.number().int().nullable(),
  }),
  /** What downsampling would take away now, for each age offered and the one asked about. */
  wouldFree: z.array(z.object({ keptDays: z.number().int(), rows: z.number().int(), bytes: z.number().int() })),
  /** The batch that still lies and began before the chosen age: nothing from its time on is downsampled. */
  heldBy: z
    .object({ batchId: z.string(), pileId: z.string(), pileName: z.string(), startedAt: instantSchema })
    .nullable(),
  /** The run that goes on now; `share` of its readings is downsampled already, 0 to 1. */
  running: z
    .object({ startedAt: instantSchema, before: instantSchema, removed: z.number().int(), share: z.number() })
    .nullable(),
  last: downsampledOnceSchema.nullable(),
  /** Why the last try went wrong; it is tried again by itself. */
  problem: z.string().nullable(),
});
export type KeepingAnswer = z.infer<typeof keepingAnswerSchema>;

export const keepingQuestionSchema = z.object({
  /** An age to weigh beside those offered. */
  keptDays: z.coerce.number().pipe(keptDaysSchema).optional(),
});
export const keepingChangeSchema = z.object({ keptDays: keptDaysSchema.nullable() });
