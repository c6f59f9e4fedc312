/** What batches are made from: starters with where they were collected, materials with whom they came from. */
import { z } from 'zod';
import { materialSchema } from './domain/batch.ts';
import { instantInputSchema, instantSchema } from './time.ts';

const words = (max: number) => z.string().trim().min(1).max(max);
const massKg = z.number().positive().max(1_000_000);
const volumeL = z.number().positive().max(1_000_000);

/** As the supplier's papers say; `unknown` is what nobody asked. */
export const organicStatuses = ['certified', 'in-conversion', 'not-certified', 'unknown'] as const;

export const starterFactsSchema = z.object({
  kind: z.literal('starter'),
  /** Where it was collected, in the person's words, e.g. "oak wood behind the upper terrace". */
  collectedPlace: words(200).optional(),
  collectedAt: instantInputSchema.optional(),
  /** What it was caught on, e.g. "cooked rice". */
  medium: words(120).optional(),
  sugar: words(120).optional(),
  /** Sugar per culture, by mass [-]; 1 is equal parts. */
  sugarRatio: z.number().positive().max(100).optional(),
});

export const materialFactsSchema = z.object({
  kind: z.literal('material'),
  material: materialSchema.or(z.enum(['water', 'soil', 'compost', 'sugar'])),
  supplier: words(120).optional(),
  /** The supplier's own lot number. */
  lotNumber: words(80).optional(),
  organic: z.enum(organicStatuses).default('unknown'),
  /** Number or name of the certificate. */
  certificate: words(120).optional(),
  receivedAt: instantInputSchema.optional(),
});

const lotContent = {
  name: words(80),
  /** How and where it is kept. */
  storage: words(200).optional(),
  massKg: massKg.optional(),
  volumeL: volumeL.optional(),
  note: z.string().trim().max(2000).optional(),
};

export const newLotSchema = z.object({
  ...lotContent,
  facts: z.discriminatedUnion('kind', [starterFactsSchema, materialFactsSchema]),
  /** Lots it was made from, e.g. a starter kept going from last year's. */
  from: z
    .array(z.object({ lotId: z.string().max(64), massKg: massKg.optional(), volumeL: volumeL.optional() }))
    .max(20)
    .default([]),
});
export type NewLot = z.input<typeof newLotSchema>;
export type LotFacts = z.output<typeof newLotSchema>['facts'];

export const lotChangeSchema = z.object({
  ...lotContent,
  name: lotContent.name.optional(),
  facts: newLotSchema.shape.facts.optional(),
  /** Nothing of it is left. */
  usedUp: z.boolean().optional(),
});

const shown = { collectedAt: instantSchema.optional() };
export const lotSchema = z.object({
  id: z.string(),
  name: z.string(),
  createdAt: instantSchema,
  storage: z.string().nullable(),
  massKg: z.number().nullable(),
  volumeL: z.number().nullable(),
  note: z.string().nullable(),
  usedUp: z.boolean(),
  facts: z.discriminatedUnion('kind', [
    starterFactsSchema.extend(shown),
    materialFactsSchema.extend({ receivedAt: instantSchema.optional(), organic: z.enum(organicStatuses) }),
  ]),
});
export type Lot = z.infer<typeof lotSchema>;

export const lotsAnswerSchema = z.object({ lots: z.array(lotSchema) });
