/** Starter into water: what is measured for what is said. */
import { z } from 'zod';
import { fieldCode } from '../../messages/field-code.ts';
import { messageSchema } from '../../messages/message.ts';
import { amount } from './plan-fields.ts';
import { messagesOf, planUnitsSchema, writtenSchema } from './written.ts';

/**
 * How "1:N" is read: `part-in`, one part in N parts of the finished liquid; `part-plus`, one part and N parts of water
 * beside it.
 */
const dilutionConventions = ['part-in', 'part-plus'] as const;
const dilutionConventionSchema = z.enum(dilutionConventions, fieldCode('field.convention'));
export type DilutionConvention = z.infer<typeof dilutionConventionSchema>;

export const dilutionAskSchema = z
  .object({
    /** Liquid wanted, the starter counted in: the mark to which the vessel is filled [L]. */
    waterL: amount().optional(),
    /** The N of 1:N. */
    ratio: z.number().min(1).max(100_000),
    convention: dilutionConventionSchema,
    /** Starter that was really measured out for it [mL]. */
    measuredMl: amount(1e9).optional(),
    /** Starter there is; without `waterL`, all of it is diluted [mL]. */
    onHandMl: amount(1e9).optional(),
    units: planUnitsSchema,
  })
  .superRefine((ask, context) => {
    if (ask.waterL === undefined && ask.onHandMl === undefined) {
      context.addIssue({ code: 'custom', path: ['waterL'], message: fieldCode('field.needed-or-on-hand') });
    }
    if (ask.measuredMl !== undefined && ask.waterL !== undefined && ask.measuredMl >= ask.waterL * 1000) {
      context.addIssue({ code: 'custom', path: ['measuredMl'], message: fieldCode('field.less-than-liquid') });
    }
    if (ask.measuredMl !== undefined && ask.waterL === undefined) {
      context.addIssue({ code: 'custom', path: ['waterL'], message: fieldCode('field.needed-to-judge') });
    }
  });
export type DilutionAsk = z.output<typeof dilutionAskSchema>;

const dilutionFigures = z.object({
  starterMl: z.number(),
  /** Finished liquid, and the water that makes it up [L]. */
  liquidL: z.number(),
  waterToAddL: z.number(),
  /** What the other convention would ask for. */
  otherwise: z.object({ convention: dilutionConventionSchema, starterMl: z.number() }),
  /** With `measuredMl`: the N that it really is, how many times the starter asked for, and the liquid it is right for. */
  actualRatio: z.number().optional(),
  factorOff: z.number().optional(),
  rightForL: z.number().optional(),
  /** With `onHandMl`: the liquid it makes, and whether it is enough. */
  onHand: z.object({ makesL: z.number(), enough: z.boolean() }).optional(),
});
export type DilutionFigures = z.infer<typeof dilutionFigures>;

export const dilutionAnswerSchema = dilutionFigures.extend({
  ...writtenSchema.shape,
  /** The convention in plain words. */
  meaning: z.string(),
  otherwise: dilutionFigures.shape.otherwise.extend({ meaning: z.string(), messages: messagesOf('meaning') }),
  messages: writtenSchema.shape.messages.extend({ meaning: messageSchema }),
});
export type DilutionAnswer = z.infer<typeof dilutionAnswerSchema>;
