/**
 * From what stands in the fields to what the planner is asked, and its answer. It never asks the server: the sums run
 * in the page, so that they work out of reach.
 */
import type { z } from 'zod';
import { type DilutionPlan, planDilution } from '../../../../core/plan/dilution.ts';
import { type MixPlan, planMix } from '../../../../core/plan/mix.ts';
import { planWater, type WaterPlan } from '../../../../core/plan/water.ts';
import { dilutionAskSchema, mixAskSchema, type PlanUnits, waterAskSchema } from '../../../../shared/contracts/plan.ts';
import type { Stage } from '../../../../shared/names.ts';
import { pours } from '../../../../shared/pours.ts';
import { type Ingredient, ingredients, type Material } from '../../../../shared/profiles/material-names.ts';
import { materialProfiles } from '../../../../shared/profiles/materials.ts';
import { fieldWords } from '../../data/field-words.ts';
import { readMeasure } from '../../data/plan-units.ts';
import { readNumber } from '../../data/read-number.ts';
import { instantOfWall } from '../../ui/format/local-time.ts';
import { type HeapDraft, type StarterDraft, stageOf, type WaterDraft } from './plan-draft.ts';

export type Planned<Answer> =
  | { readonly answer: Answer; readonly errors: ReadonlyMap<string, string> }
  | { readonly answer: undefined; readonly errors: ReadonlyMap<string, string> };

function planned<Schema extends z.ZodType, Answer>(
  schema: Schema,
  ask: unknown,
  plan: (ask: z.output<Schema>) => Answer,
): Planned<Answer> {
  const checked = schema.safeParse(ask);
  const errors = new Map<string, string>();
  if (checked.success) {
    try {
      return { answer: plan(checked.data), errors };
    } catch (error) {
      // The planner refuses what no sum can answer, in a sentence made for people.
      if (!(error instanceof RangeError)) throw error;
      errors.set('', error.message);
      return { answer: undefined, errors };
    }
  }
  for (const issue of checked.error.issues) {
    const pointer = `/${issue.path.join('/')}`;
    if (!errors.has(pointer)) errors.set(pointer, fieldWords(issue));
  }
  return { answer: undefined, errors };
}

export function planStarter(draft: StarterDraft, units: PlanUnits): Planned<DilutionPlan> {
  const measured = readNumber(draft.measured);
  return planned(
    dilutionAskSchema,
    {
      waterL: readMeasure('volumeL', draft.liquid, units),
      ratio: readNumber(draft.ratio),
      convention: draft.convention,
      measuredMl: measured === undefined ? undefined : measured * pours[draft.measuredIn].ml,
      onHandMl: readNumber(draft.onHand),
    },
    planDilution,
  );
}

export function planWetting(draft: WaterDraft, units: PlanUnits): Planned<WaterPlan> {
  return planned(
    waterAskSchema,
    {
      material: draft.material,
      materialKg: readMeasure('massKg', draft.mass, units),
      moistureNow: readMeasure('share', draft.moistureNow, units),
      moistureTarget: readMeasure('share', draft.moistureTarget, units),
      starterL: readMeasure('volumeL', draft.starter, units),
      waterMeantL: readMeasure('volumeL', draft.meant, units),
      bulkDensityKgM3: readMeasure('densityKgM3', draft.weight, units),
    },
    planWater,
  );
}

/** By which measure so much is wanted. */
export const wantedKinds = { mass: 'massKg', volume: 'volumeL', area: 'areaM2' } as const;
const wantedNames = { mass: 'massKg', volume: 'volumeL', area: 'areaM2' } as const;

export function planHeap(draft: HeapDraft, units: PlanUnits, timeZone: string | undefined): Planned<MixPlan> {
  const { by, wanted, spread } = draft;
  const startMs = instantOfWall(draft.startAt, timeZone);
  const ask = {
    by: by === '' ? undefined : by,
    materials: draft.portions.map((portion) => ({
      material: portion.material,
      name: portion.name.trim() || undefined,
      [by === 'volume' ? 'volumeL' : 'massKg']: readMeasure(
        by === 'volume' ? 'volumeL' : 'massKg',
        portion.amount,
        units,
      ),
      moisture: readMeasure('share', portion.moisture, units),
      bulkDensityKgM3: readMeasure('densityKgM3', portion.weight, units),
      carbonFrac: readMeasure('share', portion.carbon, units),
      nitrogenFrac: readMeasure('share', portion.nitrogen, units),
    })),
    moistureTarget: readMeasure('share', draft.target, units),
    starterL: readMeasure('volumeL', draft.starter, units),
    stage: stageOf(draft),
    depthM: readMeasure('depthM', draft.depth, units),
    widthM: readMeasure('lengthM', draft.width, units),
    spread:
      spread === 'none'
        ? undefined
        : spread === 'rate'
          ? { by: 'rate', rateKgM2: readMeasure('rateKgM2', draft.spreadAmount, units) }
          : { by: 'depth', depthM: readMeasure('depthM', draft.spreadAmount, units) },
    wanted:
      wanted === 'as-given'
        ? undefined
        : { of: wanted, [wantedNames[wanted]]: readMeasure(wantedKinds[wanted], draft.wantedAmount, units) },
    startAt: startMs,
    airC: readMeasure('tempC', draft.air, units),
  };
  return planned(mixAskSchema, ask, planMix);
}

/** The figures of a plan as the form that lays a pile takes them, carried in the address. */
export interface LayFigures {
  readonly stage: Stage;
  readonly material: Material;
  readonly massKg?: number | undefined;
  readonly moistureFrac?: number | undefined;
  readonly depthM?: number | undefined;
  readonly laidAt?: string | undefined;
}

const round = (value: number | undefined, figures = 5) =>
  value === undefined ? undefined : Number(value.toPrecision(figures));

export function layAddress(figures: LayFigures): string {
  const { massKg, moistureFrac, depthM, ...rest } = figures;
  const query = Object.entries({
    ...rest,
    massKg: round(massKg),
    moisturePct: round(moistureFrac === undefined ? undefined : moistureFrac * 100, 4),
    depthCm: round(depthM === undefined ? undefined : depthM * 100, 4),
  }).flatMap(([key, value]) => (value === undefined || value === '' ? [] : [[key, String(value)] as [string, string]]));
  return `/plan/lay?${new URLSearchParams(query)}`;
}

/** What a heap of these portions is called when it is laid: its largest part names it, and soil or compost before bran. */
export function heapMaterial(portions: readonly { material: Ingredient; massKg: number }[]): Material {
  for (const family of ['soil', 'bran'] as const) {
    const masses = ingredients
      .filter((one) => materialProfiles[one].family === family)
      .map((one): [Material, number] => [materialProfiles[one].ingredient.laidAs, massOf(portions, one)]);
    const [laidAs, massKg] = masses.reduce((most, one) => (one[1] > most[1] ? one : most), ['other', 0]);
    if (massKg > 0) return laidAs;
  }
  return 'other';
}

function massOf(portions: readonly { material: Ingredient; massKg: number }[], ingredient: Ingredient): number {
  return portions.filter(({ material }) => material === ingredient).reduce((sum, { massKg }) => sum + massKg, 0);
}
