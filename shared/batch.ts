/**
 * shared/batch.ts: what a grower tells us about a batch when it is laid, and the acts done to it later.
 */
import { z } from 'zod';

export const materials = ['wheat-bran', 'rice-bran', 'soil-mix', 'compost-mix', 'other'] as const;
export const materialSchema = z.enum(materials);
export type Material = z.infer<typeof materialSchema>;

export const covers = ['open', 'breathable', 'closed'] as const;
export const coverSchema = z.enum(covers);
export type Cover = z.infer<typeof coverSchema>;

/** Where a bed lies: in a closed shed, under a roof, or with neither. */
export const shelters = ['indoors', 'roof', 'open'] as const;
export const shelterSchema = z.enum(shelters);
export type Shelter = z.infer<typeof shelterSchema>;
/** In words, after “it lies” or a colon. */
export const shelterNames: Record<Shelter, string> = {
  indoors: 'in a shed',
  roof: 'under a roof',
  open: 'no roof',
};

/** What was laid and how; everything may be unknown, and the judge then keeps a wider band. */
export const recipeSchema = z.object({
  material: materialSchema,
  /** Depth of the bed [m]. */
  depthM: z.number().min(0.02).max(3),
  /** Mass as laid, water included [kg]. */
  massKg: z.number().positive().max(1_000_000).optional(),
  /** Moisture as laid, wet basis, fraction [-]. */
  moistureFrac: z.number().min(0).max(0.95).optional(),
  /** Culture mixed in, as a fraction of the wet mass [-]. */
  doseFrac: z.number().min(0).max(1).optional(),
  cover: coverSchema,
  shelter: shelterSchema.optional(),
});
export type Recipe = z.infer<typeof recipeSchema>;

export const actKinds = [
  'turned',
  'watered',
  'spread',
  'heaped',
  'covered',
  'uncovered',
  'moved',
  'rained',
  'note',
] as const;
export const actKindSchema = z.enum(actKinds);
export type ActKind = z.infer<typeof actKindSchema>;

/** Something a person did to a pile, or the sky. */
export interface Act {
  readonly kind: ActKind;
  readonly atMs: number;
  /** Water given [L]; with `watered`. */
  readonly amountL?: number | undefined;
  /** Depth afterwards [m]; with `spread` and `heaped`. */
  readonly depthM?: number | undefined;
  /** Rain that fell beside the pile, on nothing [mm]; with `rained`. */
  readonly rainMm?: number | undefined;
}
