/** What a person may write down about a pile: what was done to it, and what was seen, smelt and weighed. */
import { z } from 'zod';
import { actKindSchema, coverSchema } from './contracts/domain/batch.ts';
import { positionSchema } from './names.ts';
import { verdictReasons, verdicts } from './verdict.ts';

/** A handful squeezed hard: too dry, right, a little wet, too wet. */
export const squeezeFeels = ['crumbles', 'holds', 'drips', 'pours'] as const;
export const smells = [
  'sweet',
  'fermented',
  'earthy',
  'mushroom',
  'faint',
  'sour',
  'ammonia',
  'rotten',
  'musty',
] as const;
export const growthColours = ['white', 'green', 'black', 'other'] as const;
export const growthPlaces = ['skin', 'edge', 'core', 'base', 'all-through'] as const;
export const amountsSeen = ['few', 'some', 'many'] as const;
/** A person's own judgement of smell or look. */
export const judgements = ['good', 'doubtful', 'bad'] as const;

const litres = z.number().positive().max(100_000);
/** What no bed is deeper than, and more than a gauge shows at one reading. */
export const entryLimits = { depthM: 3, rainMm: 500 } as const;
const metres = z.number().positive().max(entryLimits.depthM);
const millimetres = z.number().positive().max(entryLimits.rainMm);
const grams = z.number().positive().max(100_000);
/**
 * What a thermometer in a hand may show of a pile or the air beside it [°C]: from a hard frost to well above the top of the
 * self-heating ladder. What lies beyond is a slip of the pen.
 */
const handRange = { minC: -40, maxC: 120 } as const;
const fewWords = z.string().trim().min(1).max(120);

export const entryFactsSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('turned') }),
  /** How much water was given [L]. */
  z.object({ kind: z.literal('watered'), amountL: litres.optional() }),
  /** Depth afterwards [m]. */
  z.object({ kind: z.literal('spread'), depthM: metres.optional() }),
  z.object({ kind: z.literal('heaped'), depthM: metres.optional() }),
  z.object({ kind: z.literal('covered'), cover: coverSchema.exclude(['open']).optional() }),
  z.object({ kind: z.literal('uncovered') }),
  z.object({ kind: z.literal('moved'), place: fewWords.optional() }),
  /** Since it was last written down, on an open gauge [mm]. */
  z.object({ kind: z.literal('rained'), rainMm: millimetres.optional() }),
  z.object({ kind: z.literal('squeeze'), feel: z.enum(squeezeFeels), place: z.enum(growthPlaces).optional() }),
  z.object({ kind: z.literal('smell'), smells: z.array(z.enum(smells)).min(1).max(smells.length) }),
  z.object({
    kind: z.literal('growth'),
    colour: z.enum(growthColours),
    /** In words, where the colour is none of the three. */
    otherColour: fewWords.optional(),
    place: z.enum(growthPlaces).optional(),
    amount: z.enum(amountsSeen).optional(),
  }),
  z.object({ kind: z.literal('pests'), what: fewWords, amount: z.enum(amountsSeen).optional() }),
  /** A sample weighed as taken, and again once dry where that was done: then its moisture is known [g]. */
  z.object({ kind: z.literal('sample'), wetG: grams, dryG: grams.optional() }),
  /** A thermometer held into the pile by a person, and what a moisture meter showed beside it. */
  z.object({
    kind: z.literal('measured'),
    position: positionSchema,
    temperatureC: z.number().min(handRange.minC).max(handRange.maxC),
    moisturePct: z
      .number()
      .min(0)
      .max(100)
      .optional()
      .describe(
        'What a meter shows [% of volume]. Not comparable with moistures of samples, recipes and limits, which are wet basis',
      ),
  }),
  z.object({ kind: z.literal('photo') }),
  z.object({ kind: z.literal('note') }),
  /** Nose and eyes decide; only a person can say so. */
  z.object({
    kind: z.literal('readiness'),
    smell: z.enum(judgements),
    look: z.enum(judgements),
    ready: z.boolean(),
  }),
  /** How the batch came out, once it is over; it names its batch, as the next one may lie there by then. */
  z.object({
    kind: z.literal('verdict'),
    batchId: z.string().min(1).max(64),
    verdict: z.enum(verdicts),
    /** What weighed most; without it the note says why. */
    why: z.enum(verdictReasons).optional(),
  }),
]);
export type EntryFacts = z.output<typeof entryFactsSchema>;
export type EntryKind = EntryFacts['kind'];

export const entryKinds = entryFactsSchema.options.map((option) => option.shape.kind.value) as readonly EntryKind[];
export const entryKindSchema = z.enum(entryKinds as readonly [EntryKind, ...EntryKind[]]);

/** Whether an entry of this kind is an act, so that the judge must hear of it. */
export function isActKind(kind: EntryKind): kind is EntryKind & z.infer<typeof actKindSchema> {
  return actKindSchema.safeParse(kind).success;
}

/**
 * Moisture of a weighed and dried sample, wet basis: (wet - dry) / wet.
 * @example sampleMoistureFrac(10, 2.3) // => 0.77
 * @see Cornell Waste Management Institute, moisture of a sample: 10 g drying to 2.3 g is 77 %.
 */
export function sampleMoistureFrac(wetG: number, dryG: number): number {
  return (wetG - dryG) / wetG;
}
