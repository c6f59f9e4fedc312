/**
 * Readings and journal entries from a CSV file: first a preview, then the same text again to keep it.
 *
 * The preview says what each column became and refuses each bad row with its reason; nothing is kept by it. Committing
 * the same file twice changes nothing: readings are known by probe, quantity and time, entries by an id made of their
 * row.
 */
import { z } from 'zod';
import { fieldCode } from '../messages/field-code.ts';
import { messageSchema } from '../messages/message.ts';
import { nameSchema } from '../names.ts';
import { quantitySchema } from '../quantity.ts';
import { entrySchema } from './journal.ts';
import { instantSchema } from './time.ts';

export const importLimits = {
  bytes: 20_000_000,
  rows: 500_000,
  columns: 200,
  /** Longest cell of a column that is read [characters]; a note has 2,000 at most. */
  cell: 4_000,
  refusedShown: 200,
  acceptedShown: 20,
} as const;

/** What a column may mean. `value` takes its probe, quantity and unit from here where other columns do not say. */
export const columnMeaningSchema = z.discriminatedUnion('as', [
  z.object({ as: z.literal('ignored') }),
  z.object({
    as: z.literal('field'),
    /** For readings: time, date, clock, site, probe, quantity, value, unit. For entries: time, date, clock, pile, kind, by, note, id and the fields of each kind. */
    field: z.string().max(40),
  }),
  z.object({
    as: z.literal('value'),
    quantity: quantitySchema,
    /** The column's own probe; else the probe column's, else the request's. */
    probe: nameSchema.optional(),
    unit: z.string().max(12).optional(),
  }),
]);
export type ColumnMeaning = z.infer<typeof columnMeaningSchema>;

export const importAskSchema = z.object({
  kind: z.enum(['readings', 'entries']),
  csv: z.string().min(1).max(importLimits.bytes),
  /** Site of the probes where no column names it. */
  site: nameSchema.optional(),
  /** Probe where neither column nor heading names it. */
  probe: nameSchema.optional(),
  /** Pile of entries where no column names it. */
  pileId: z.string().max(64).optional(),
  /** IANA zone of times written without an offset; UTC when absent. */
  timeZone: z.string().max(64).optional(),
  /** Order of day and month in dates such as 03/04/2031. */
  dateOrder: z.enum(['day-first', 'month-first']).optional(),
  /** Unit of temperatures whose column does not name one. */
  temperatureUnit: z.enum(['C', 'F']).default('C'),
  /** By heading, where the person says otherwise than was guessed. */
  columns: z
    .record(z.string().max(200), columnMeaningSchema)
    .refine((columns) => Object.keys(columns).length <= importLimits.columns, {
      error: fieldCode('field.most-columns'),
      params: { mostCount: importLimits.columns },
    })
    .default({}),
});
export type ImportAsk = z.input<typeof importAskSchema>;

export const importCommitSchema = importAskSchema.extend({
  /** Of the preview: so that what is kept is what was shown. */
  digest: z.string().length(64),
});
export type ImportCommit = z.output<typeof importCommitSchema>;

export const importPreviewSchema = z.object({
  digest: z.string(),
  delimiter: z.string(),
  decimalComma: z.boolean(),
  columns: z.array(
    z.object({
      heading: z.string(),
      became: columnMeaningSchema,
      /** In words, e.g. "temperature of the probe core-1, in °F". */
      says: z.string(),
      messages: z.object({ says: messageSchema }),
      /** First few values as they stand in the file. */
      examples: z.array(z.string()),
    }),
  ),
  /** Set when the columns do not suffice, e.g. no time: nothing can be kept then. */
  problem: z.string().nullable(),
  messages: z.object({ problem: messageSchema.nullable() }),
  rows: z.object({
    total: z.number().int(),
    accepted: z.number().int(),
    /** Rows of which nothing is taken. */
    refused: z.number().int(),
    /** Cells refused beside others of their row that are taken. */
    cellsRefused: z.number().int(),
    /** Readings in the accepted rows; 0 for entries. */
    readings: z.number().int(),
  }),
  from: instantSchema.nullable(),
  to: instantSchema.nullable(),
  /** The first refused rows and cells; `line` counts from 1, the heading included. */
  refused: z.array(
    z.object({
      line: z.number().int(),
      column: z.string().nullable(),
      reason: z.string(),
      messages: z.object({ reason: messageSchema }),
      text: z.string(),
    }),
  ),
  /** The first accepted ones, as they would be kept. */
  readings: z.array(
    z.object({ site: z.string(), probe: z.string(), quantity: quantitySchema, at: instantSchema, value: z.number() }),
  ),
  entries: z.array(entrySchema.omit({ versionId: true, version: true, recordedAt: true, batchId: true })),
});
export type ImportPreview = z.infer<typeof importPreviewSchema>;

export const importDoneSchema = z.object({
  kept: z.number().int(),
  /** Were there before. */
  known: z.number().int(),
  /** Readings of a known probe, quantity and time with another value: the one kept first stays. */
  conflicting: z.number().int(),
  /** Readings from a time of which only ten-minute means are kept of their probe: not taken. */
  downsampled: z.number().int(),
  /** Rows and single cells. */
  refused: z.number().int(),
});
