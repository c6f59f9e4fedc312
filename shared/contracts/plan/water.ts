/** Water to a wanted moisture. */
import { z } from 'zod';
import {
  amount,
  amountOrNone,
  bulkDensity,
  ingredientSchema,
  moisture,
  neededForOther,
  target,
} from './plan-fields.ts';
import { messagesOf, planUnitsSchema, writtenSchema } from './written.ts';

export const waterAskSchema = z
  .object({
    materialKg: amount(),
    material: ingredientSchema.optional(),
    moistureNow: moisture.optional(),
    moistureTarget: target.optional(),
    /** Diluted starter that goes in anyway: counted as water [L]. */
    starterL: amountOrNone.optional(),
    /** Water somebody means to give, to see what it would come to [L]. */
    waterMeantL: amountOrNone.optional(),
    /** Of the material as it is now; better than our default where it was weighed. */
    bulkDensityKgM3: bulkDensity.optional(),
    units: planUnitsSchema,
  })
  .superRefine((ask, context) => {
    if (ask.material !== 'other') return;
    for (const key of ['moistureNow', 'moistureTarget'] as const) {
      if (ask[key] === undefined) context.addIssue({ code: 'custom', path: [key], message: neededForOther });
    }
  });
export type WaterAsk = z.output<typeof waterAskSchema>;

const waterVerdicts = ['add', 'enough', 'too-wet'] as const;
export const waterShares = {
  verdict: z.enum(waterVerdicts),
  /** Water to give besides the starter, never negative [kg, which is L]. */
  waterKg: z.number(),
  /** Of it, what to give before the first squeeze test, and what is left for after [kg]. */
  firstPortionKg: z.number(),
  restKg: z.number(),
  starterKg: z.number(),
};

const waterFigures = z.object({
  ...waterShares,
  massAfterKg: z.number(),
  moistureAfter: z.number(),
  /** Share of the volume that is air, once wetted; null where the bulk density is not known. */
  freeAirSpace: z.number().nullable(),
  freeAirSpaceFloor: z.number(),
  /** Moisture at which the air space is down to the floor. */
  wettestForAir: z.number().nullable(),
  /** When too wet: the same material, dry as stored, that would bring it to the target [kg]. */
  drierKg: z.number().nullable(),
});
export type WaterFigures = z.infer<typeof waterFigures>;

export const waterAnswerSchema = waterFigures.extend({
  ...writtenSchema.shape,
  /** The band in which it is usually wetted. */
  usual: z.object({
    fromFrac: z.number(),
    toFrac: z.number(),
    origin: z.string(),
    messages: messagesOf('origin'),
  }),
  /** With `waterMeantL`: the moisture it would come to. */
  meant: z.object({ moisture: z.number(), says: z.string(), messages: messagesOf('says') }).optional(),
});
export type WaterAnswer = z.infer<typeof waterAnswerSchema>;
