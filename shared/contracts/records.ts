/** The record of one batch, whole enough to be printed and filed, and the calendar's address. */
import { z } from 'zod';
import { messageSchema } from '../messages/message.ts';
import { positionSchema } from '../names.ts';
import { alarmDetailSchema } from './alarms.ts';
import { assumptionSchema, givenRecipeSchema } from './domain/batch.ts';
import { entrySchema } from './journal.ts';
import { batchDetailSchema, lineageNodeSchema } from './lineage.ts';
import { lotSchema } from './lots.ts';
import { pastHeatSchema } from './past-heat.ts';
import { limitSchema } from './piles.ts';
import { readinessSchema } from './readiness.ts';
import { handPointSchema } from './series.ts';
import { instantSchema } from './time.ts';

/** One composting rule beside what was measured; facts for the reader, never a verdict. */
const ruleFactSchema = z.object({
  rule: z.string(),
  source: z.string(),
  /** "seen" when its wording was read, "from memory" when it must be looked up before it is relied on. */
  standing: z.enum(['seen', 'from memory']),
  asks: z.string(),
  measured: z.string(),
  messages: z.object({
    rule: messageSchema,
    source: messageSchema,
    asks: messageSchema,
    measured: messageSchema,
  }),
});
export type RuleFact = z.infer<typeof ruleFactSchema>;

const timeTemperatureSchema = z.object({
  /** The probe position that was counted: the core, or where there was none, the coolest one that was measured. */
  position: positionSchema.nullable(),
  /** Time between readings that both lay at or above, gaps over 75 minutes left out [h]. */
  hoursAtLeast: z.array(z.object({ tempC: z.number(), totalH: z.number(), longestRunH: z.number() })),
  measuredH: z.number(),
  /** Time of the batch without readings [h]. */
  unmeasuredH: z.number(),
  highestC: z.number().nullable(),
  highestAt: instantSchema.nullable(),
  turns: z.number().int(),
  rules: z.array(ruleFactSchema),
  /** "This is not a certification …", "Not sanitised …". */
  says: z.array(z.string()),
  messages: z.object({ says: z.array(messageSchema) }),
});
export type TimeTemperature = z.infer<typeof timeTemperatureSchema>;

const curveSchema = z.object({
  position: positionSchema,
  points: z.array(z.object({ at: instantSchema, min: z.number(), mean: z.number(), max: z.number() })),
});

export const batchRecordSchema = z.object({
  /** When this record was drawn up, and by which version. */
  drawnUpAt: instantSchema,
  version: z.string(),
  timeZone: z.string().nullable(),
  siteName: z.string(),
  batch: batchDetailSchema,
  /** As given; what is absent was not, and what was reckoned with in its place. */
  recipe: givenRecipeSchema,
  assumed: z.array(assumptionSchema),
  limits: z.record(z.string(), limitSchema),
  /** Lots that went in, with supplier and organic status. */
  lots: z.array(lotSchema.extend({ massKgIn: z.number().nullable(), volumeLIn: z.number().nullable() })),
  /** Everything it came from, lots and batches, nearest first. */
  ancestry: z.array(lineageNodeSchema),
  curves: z.object({
    bucketMs: z.number(),
    temperatureC: z.array(curveSchema),
    /** Oldest first. */
    byHand: z.array(handPointSchema),
  }),
  /** Oldest first; struck-out ones left out. */
  entries: z.array(entrySchema.extend({ corrected: z.boolean() })),
  alarms: z.array(alarmDetailSchema),
  timeTemperature: timeTemperatureSchema,
  /** Peaks and hours above the limits of this batch, place by place. */
  pastHeat: pastHeatSchema,
  readiness: readinessSchema,
  cautions: z.array(z.string()),
  messages: z.object({ cautions: z.array(messageSchema) }),
});
export type BatchRecordSheet = z.infer<typeof batchRecordSchema>;

export const exportSubjects = [
  'sites',
  'piles',
  'batches',
  'entries',
  'earlier-versions',
  'alarms',
  'lots',
  'flows',
  'uses',
] as const;
export const exportSubjectSchema = z.enum(exportSubjects);
export type ExportSubject = z.infer<typeof exportSubjectSchema>;

export const calendarSchema = z.object({
  /** Whole address to subscribe to; whoever has it can read the dates, so it can be renewed. */
  address: z.string(),
  says: z.string(),
  messages: z.object({ says: messageSchema }),
});

export const labelSchema = z.object({
  /** What the code on the label opens. */
  address: z.string(),
  /** False when the address means this machine only: a phone beside the pile could not open it. */
  opensElsewhere: z.boolean(),
  says: z.string(),
  messages: z.object({ says: messageSchema }),
});
