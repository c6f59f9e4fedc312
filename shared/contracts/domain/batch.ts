/** What a grower tells us about a batch when it is laid, and the acts done to it later. */
import { z } from 'zod';
import { type Material, materials } from '../../profiles/material-names.ts';

export const materialSchema = z.enum(materials);

export const covers = ['open', 'breathable', 'closed'] as const;
export const coverSchema = z.enum(covers);
export type Cover = z.infer<typeof coverSchema>;

/** Where a bed lies: in a closed shed, under a roof, or with neither. */
export const shelters = ['indoors', 'roof', 'open'] as const;
const shelterSchema = z.enum(shelters);
export type Shelter = z.infer<typeof shelterSchema>;

/** What was laid and how, as far as somebody said: what is absent was not given, and nothing stands in its place. */
export const givenRecipeSchema = z.object({
  material: materialSchema.optional(),
  /** Depth of the bed [m]. */
  depthM: z.number().min(0.02).max(3).optional(),
  /** Mass as laid, water included [kg]. */
  massKg: z.number().positive().max(1_000_000).optional(),
  /** Moisture as laid, wet basis, fraction [-]. */
  moistureFrac: z.number().min(0).max(0.95).optional().describe('As laid, wet basis, fraction of the wet mass'),
  /** Culture mixed in, as a fraction of the wet mass [-]. */
  doseFrac: z.number().min(0).max(1).optional(),
  cover: coverSchema.optional(),
  shelter: shelterSchema.optional(),
});
export type GivenRecipe = z.infer<typeof givenRecipeSchema>;
export type LaidFact = keyof GivenRecipe;

/** What a pile is reckoned with: as given, and assumed where the sums cannot do without (core/session/fill-recipe.ts). */
export type Recipe = Omit<GivenRecipe, 'material' | 'depthM' | 'cover'> & {
  readonly material: Material;
  readonly depthM: number;
  readonly cover: Cover;
};

/** Why a value was taken for one that was not given. */
const assumptionOrigins = [
  'usual-of-stage',
  'usual-of-material',
  'own-estimate',
  'sum-of-inputs',
  'as-the-whole',
  'counted-as',
] as const;

/** What is reckoned with in the place of a fact that was not given. */
export const assumptionSchema = z.object({
  fact: givenRecipeSchema.keyof(),
  /** A name of ours, or a number in the unit of the fact. */
  value: z.union([z.string(), z.number()]),
  origin: z.enum(assumptionOrigins),
});
export type Assumption = z.infer<typeof assumptionSchema>;

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
