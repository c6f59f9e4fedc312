/** What a grower works out before a heap is laid: starter, water, mix, dates. */
import { z } from 'zod';
import { measureKinds } from '../measure.ts';
import { messageSchema } from '../messages/message.ts';
import { stageSchema } from '../names.ts';
import { ingredients } from '../profiles/material-names.ts';
import { instantInputSchema, instantSchema } from './time.ts';

const amount = (what: string, max = 1_000_000) =>
  z.number(`must be ${what}, as a number`).min(0.001, 'must be at least 0.001').max(max, `must be at most ${max}`);
const amountOrNone = (what: string) =>
  z.number(`must be ${what}, as a number`).min(0, 'must not be negative').max(1_000_000, 'must be at most 1000000');
const fractionWords = 'must be a fraction of the wet mass from 0 to 0.95: 60 % is 0.6';
const moisture = z.number(fractionWords).min(0, fractionWords).max(0.95, fractionWords);
/** Above this the water asked for grows beyond all sense: at 90 % it is nine times the dry matter. */
const targetWords = 'must be a fraction of the wet mass from 0.05 to 0.9: 60 % is 0.6';
const target = z.number(targetWords).min(0.05, targetWords).max(0.9, targetWords);
const densityWords = 'must be from 20 to 2500 kg/m3: weigh 10 L and multiply its kilograms by 100';
const bulkDensity = z.number(densityWords).min(20, densityWords).max(2500, densityWords);
const dryShareWords = 'must be a fraction of the dry mass above 0 and up to 1: 45 % is 0.45';
const dryShare = z.number(dryShareWords).gt(0, dryShareWords).max(1, dryShareWords);
const depth = z.number('must be metres, as a number').min(0.001, 'must be at least 0.001').max(3, 'must be at most 3');
const airC = z.number('must be °C, as a number').min(-40, 'must be at least -40').max(60, 'must be at most 60');

const planUnitsSchema = z
  .object({
    mass: z.enum(['kg', 'lb']).default('kg'),
    volume: z.enum(['L', 'gal']).default('L'),
    length: z.enum(['m', 'ft']).default('m'),
    temperature: z.enum(['C', 'F']).default('C'),
  })
  .prefault({});
export type PlanUnits = z.output<typeof planUnitsSchema>;

/** What a sentence or a name was made of: its code and parameters, by the name of the field that holds it. */
const messagesOf = <Field extends string>(...fields: Field[]) =>
  z.object(Object.fromEntries(fields.map((field) => [field, messageSchema])) as Record<Field, typeof messageSchema>);

/** An amount in SI units, as its kind says. */
const termSchema = z.object({ kind: z.enum(measureKinds), value: z.number() });

/** One line of the working: `sum` is the arithmetic in words and figures, `value` what it comes to; `terms` is the same sum in SI units. */
const workingStepSchema = z.object({
  what: z.string(),
  sum: z.string(),
  value: z.number(),
  unit: z.string(),
  terms: z.array(z.union([z.string(), termSchema])),
  messages: messagesOf('what'),
});

/** A figure nobody gave, and where the one that was taken comes from. */
const defaultTakenSchema = z.object({
  what: z.string(),
  value: z.number(),
  unit: z.string(),
  origin: z.string(),
  messages: messagesOf('what', 'origin'),
});

const planTones = ['calm', 'watch', 'act'] as const;
export type PlanTone = (typeof planTones)[number];
const remarkSchema = z.object({ tone: z.enum(planTones), says: z.string(), messages: messagesOf('says') });

/** What every plan carries besides its figures. */
const writtenSchema = z.object({
  /** The plan in one or two plain sentences. */
  says: z.string(),
  remarks: z.array(remarkSchema),
  cautions: z.array(z.string()),
  working: z.array(workingStepSchema),
  defaults: z.array(defaultTakenSchema),
  messages: messagesOf('says').extend({ cautions: z.array(messageSchema) }),
});
export type WrittenView = z.infer<typeof writtenSchema>;

/**
 * How "1:N" is read: `part-in`, one part in N parts of the finished liquid; `part-plus`, one part and N parts of water
 * beside it.
 */
const dilutionConventions = ['part-in', 'part-plus'] as const;
const dilutionConventionSchema = z.enum(
  dilutionConventions,
  'must be "part-in" (1 part in N of the finished liquid) or "part-plus" (1 part and N parts of water)',
);
export type DilutionConvention = z.infer<typeof dilutionConventionSchema>;

export const dilutionAskSchema = z
  .object({
    /** Liquid wanted, the starter counted in: the mark to which the vessel is filled [L]. */
    waterL: amount('litres').optional(),
    /** The N of 1:N. */
    ratio: z
      .number('must be the N of 1:N, as a number')
      .min(1, 'must be at least 1')
      .max(100_000, 'must be at most 100000'),
    convention: dilutionConventionSchema,
    /** Starter that was really measured out for it [mL]. */
    measuredMl: amount('millilitres', 1e9).optional(),
    /** Starter there is; without `waterL`, all of it is diluted [mL]. */
    onHandMl: amount('millilitres', 1e9).optional(),
    units: planUnitsSchema,
  })
  .superRefine((ask, context) => {
    if (ask.waterL === undefined && ask.onHandMl === undefined) {
      context.addIssue({ code: 'custom', path: ['waterL'], message: 'is needed, or else onHandMl' });
    }
    if (ask.measuredMl !== undefined && ask.waterL !== undefined && ask.measuredMl >= ask.waterL * 1000) {
      context.addIssue({ code: 'custom', path: ['measuredMl'], message: 'must be less than the liquid it is part of' });
    }
    if (ask.measuredMl !== undefined && ask.waterL === undefined) {
      context.addIssue({ code: 'custom', path: ['waterL'], message: 'is needed to judge what was measured' });
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

const ingredientSchema = z.enum(ingredients, `must be one of ${ingredients.join(', ')}`);

const neededForOther = 'is needed for a material we know nothing of';

export const waterAskSchema = z
  .object({
    materialKg: amount('kilograms'),
    material: ingredientSchema.optional(),
    moistureNow: moisture.optional(),
    moistureTarget: target.optional(),
    /** Diluted starter that goes in anyway: counted as water [L]. */
    starterL: amountOrNone('litres').optional(),
    /** Water somebody means to give, to be told what it would come to [L]. */
    waterMeantL: amountOrNone('litres').optional(),
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
const waterShares = {
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
const weighedSchema = z.object({ ...known, massKg: amount('kilograms') });
const measuredSchema = z.object({ ...known, volumeL: amount('litres') });

const spreadSchema = z.discriminatedUnion('by', [
  z.object({ by: z.literal('rate'), rateKgM2: amount('kilograms per square metre', 1000) }),
  z.object({ by: z.literal('depth'), depthM: depth }),
]);
/** How much is wanted; the recipe is then made larger or smaller as a whole, its starter with it. */
const wantedSchema = z.discriminatedUnion('of', [
  z.object({ of: z.literal('mass'), massKg: amount('kilograms') }),
  z.object({ of: z.literal('volume'), volumeL: amount('litres') }),
  z.object({ of: z.literal('area'), areaM2: amount('square metres') }),
  /** All that there is of one material, in the unit of `by`. */
  z.object({ of: z.literal('material'), index: z.int().min(0), amount: amount('kilograms or litres') }),
]);

const mixing = {
  moistureTarget: target.optional(),
  starterL: amountOrNone('litres').optional(),
  stage: stageSchema.optional(),
  /** Depth and width the heap may have; the depth allowed for the stage when absent. */
  depthM: depth.optional(),
  widthM: amount('metres', 1000).optional(),
  spread: spreadSchema.optional(),
  wanted: wantedSchema.optional(),
  /** When it will be laid; with `stage` it gives the dates. */
  startAt: instantInputSchema.optional(),
  /** Air expected around the heap [°C]; tells a warm course from a cool one. */
  airC: airC.optional(),
  units: planUnitsSchema,
};
const list = <T extends z.ZodType>(one: T) =>
  z.array(one).min(1, 'must name at least one material').max(20, 'must name at most 20 materials');

/** By mass or by volume has to be said: half and half means something else in each. */
export const mixAskSchema = z
  .discriminatedUnion(
    'by',
    [
      z.object({ by: z.literal('mass'), materials: list(weighedSchema), ...mixing }),
      z.object({ by: z.literal('volume'), materials: list(measuredSchema), ...mixing }),
    ],
    'must be "mass" or "volume": parts by mass and parts by volume are different mixes',
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
    if (wanted?.of === 'area' && !spread) asks(['spread'], 'is needed to know what an area takes');
    if (wanted?.of === 'material' && wanted.index >= ask.materials.length) {
      asks(['wanted', 'index'], 'must be the place of one of the materials, counted from 0');
    }
    if (ask.startAt !== undefined && ask.stage === undefined) asks(['stage'], 'is needed for dates');
  });
export type MixAsk = z.output<typeof mixAskSchema>;

const plannedDateKinds = ['check', 'turn', 'ready'] as const;
const plannedDateSchema = z.object({
  kind: z.enum(plannedDateKinds),
  at: instantSchema,
  /** End of a window; null for a single moment. */
  until: instantSchema.nullable(),
  says: z.string(),
  origin: z.string(),
  messages: messagesOf('says', 'origin'),
});
export type PlannedDateView = z.infer<typeof plannedDateSchema>;

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

export const datesAskSchema = z.object({
  startAt: instantInputSchema,
  stage: stageSchema,
  airC: airC.optional(),
  units: planUnitsSchema,
});
export const datesAnswerSchema = z.object({ dates: z.array(plannedDateSchema) });
