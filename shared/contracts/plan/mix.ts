/** Materials to a heap: how much of each, with which water. */
import { z } from 'zod';
import { fieldCode } from '../../messages/field-code.ts';
import { stageSchema } from '../../names.ts';
import { instantInputSchema } from '../time.ts';
import { plannedDateSchema } from './dates.ts';
import {
  airC,
  amount,
  amountOrNone,
  bulkDensity,
  depth,
  dryShare,
  ingredientSchema,
  moisture,
  neededForOther,
  target,
} from './plan-fields.ts';
import { waterShares } from './water.ts';
import { messagesOf, planUnitsSchema, writtenSchema } from './written.ts';

const known = {
  material: ingredientSchema,
  name: z.string().trim().min(1).max(80).optional(),
  moisture: moisture.optional(),
  /** As it is when weighed or measured, its water included. */
  bulkDensityKgM3: bulkDensity.optional(),
  /** Of the dry matter. */
  carbonFrac: dryShare.optional(),
  nitrogenFrac: dryShare.optional(),
};
const weighedSchema = z.object({ ...known, massKg: amount() });
const measuredSchema = z.object({ ...known, volumeL: amount() });

const spreadSchema = z.discriminatedUnion('by', [
  z.object({ by: z.literal('rate'), rateKgM2: amount(1000) }),
  z.object({ by: z.literal('depth'), depthM: depth }),
]);
/** How much is wanted; the recipe is then made larger or smaller as a whole, its starter with it. */
const wantedSchema = z.discriminatedUnion('of', [
  z.object({ of: z.literal('mass'), massKg: amount() }),
  z.object({ of: z.literal('volume'), volumeL: amount() }),
  z.object({ of: z.literal('area'), areaM2: amount() }),
  /** All that there is of one material, in the unit of `by`. */
  z.object({ of: z.literal('material'), index: z.int().min(0), amount: amount() }),
]);

const mixing = {
  moistureTarget: target.optional(),
  starterL: amountOrNone.optional(),
  stage: stageSchema.optional(),
  /** Depth and width the heap may have; the depth allowed for the stage when absent. */
  depthM: depth.optional(),
  widthM: amount(1000).optional(),
  spread: spreadSchema.optional(),
  wanted: wantedSchema.optional(),
  /** When it will be laid; with `stage` it gives the dates. */
  startAt: instantInputSchema.optional(),
  /** Air expected around the heap [°C]; tells a warm course from a cool one. */
  airC: airC.optional(),
  units: planUnitsSchema,
};
const list = <T extends z.ZodType>(one: T) => z.array(one).min(1).max(20);

/** By mass or by volume has to be said: half and half means something else in each. */
export const mixAskSchema = z
  .discriminatedUnion(
    'by',
    [
      z.object({ by: z.literal('mass'), materials: list(weighedSchema), ...mixing }),
      z.object({ by: z.literal('volume'), materials: list(measuredSchema), ...mixing }),
    ],
    fieldCode('field.mass-or-volume'),
  )
  .superRefine((ask, context) => {
    const asks = (path: (string | number)[], message: string) => context.addIssue({ code: 'custom', path, message });
    const { wanted, spread } = ask;
    const needsVolume = ask.by === 'volume' || wanted?.of === 'volume' || spread?.by === 'depth';
    for (const [index, one] of ask.materials.entries()) {
      if (one.material !== 'other') continue;
      if (one.moisture === undefined) asks(['materials', index, 'moisture'], neededForOther);
      if (needsVolume && one.bulkDensityKgM3 === undefined) {
        asks(['materials', index, 'bulkDensityKgM3'], neededForOther);
      }
    }
    if (wanted?.of === 'area' && !spread) asks(['spread'], fieldCode('field.needed-for-area'));
    if (wanted?.of === 'material' && wanted.index >= ask.materials.length) {
      asks(['wanted', 'index'], fieldCode('field.place-of-material'));
    }
    if (ask.startAt !== undefined && ask.stage === undefined) asks(['stage'], fieldCode('field.needed-for-dates'));
  });
export type MixAsk = z.output<typeof mixAskSchema>;

/** A heap as such: null where a material's bulk density is not known. */
const heapSchema = z.object({
  massKg: z.number(),
  volumeL: z.number().nullable(),
  moisture: z.number(),
  freeAirSpace: z.number().nullable(),
});

const mixMaterial = z.object({
  material: ingredientSchema,
  massKg: z.number(),
  volumeL: z.number().nullable(),
  moisture: z.number(),
  dryKg: z.number(),
  waterKg: z.number(),
});
const mixFigures = z.object({
  by: z.enum(['mass', 'volume']),
  /** How many times the recipe as asked; 1 without `wanted`. */
  times: z.number(),
  materials: z.array(mixMaterial),
  /** The materials mixed, before starter and water. */
  ...heapSchema.shape,
  /** Null unless carbon and nitrogen of every material are known. */
  carbonNitrogen: z.number().nullable(),
  water: z.object(waterShares).nullable(),
  /** The heap as laid, starter and water in it. */
  laid: heapSchema,
  freeAirSpaceFloor: z.number(),
  footprint: z.object({ depthM: z.number(), areaM2: z.number(), widthM: z.number(), lengthM: z.number() }).nullable(),
  spread: z.object({ areaM2: z.number(), rateKgM2: z.number(), depthM: z.number().nullable() }).nullable(),
});
export type MixFigures = z.infer<typeof mixFigures>;

export const mixAnswerSchema = mixFigures.extend({
  ...writtenSchema.shape,
  materials: z.array(mixMaterial.extend({ name: z.string(), messages: messagesOf('name') })),
  dates: z.array(plannedDateSchema),
});
export type MixAnswer = z.infer<typeof mixAnswerSchema>;
