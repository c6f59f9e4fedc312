/** What stands in the planner's fields, as it was typed; '' is not said. */
import { z } from 'zod';
import { type Stage, stages } from '../../../../shared/names.ts';
import { type PourName, pours } from '../../../../shared/pours.ts';
import { ingredients } from '../../../../shared/profiles/material-names.ts';
import { materialProfiles } from '../../../../shared/profiles/materials.ts';

const starterSchema = z.object({
  liquid: z.string(),
  ratio: z.string(),
  convention: z.enum(['part-in', 'part-plus']),
  measured: z.string(),
  measuredIn: z.enum(Object.keys(pours) as [PourName, ...PourName[]]),
  onHand: z.string(),
});
export type StarterDraft = Readonly<z.infer<typeof starterSchema>>;
export const emptyStarter: StarterDraft = {
  liquid: '',
  ratio: '500',
  convention: 'part-in',
  measured: '',
  measuredIn: 'mL',
  onHand: '',
};

const waterSchema = z.object({
  material: z.enum(ingredients),
  mass: z.string(),
  moistureNow: z.string(),
  moistureTarget: z.string(),
  starter: z.string(),
  meant: z.string(),
  weight: z.string(),
});
export type WaterDraft = Readonly<z.infer<typeof waterSchema>>;
export const emptyWater: WaterDraft = {
  material: 'wheat-bran',
  mass: '',
  moistureNow: '',
  moistureTarget: '',
  starter: '',
  meant: '',
  weight: '',
};

const portionSchema = z.object({
  material: z.enum(ingredients),
  name: z.string(),
  amount: z.string(),
  moisture: z.string(),
  weight: z.string(),
  carbon: z.string(),
  nitrogen: z.string(),
});
export type PortionDraft = Readonly<z.infer<typeof portionSchema>>;
export const emptyPortion: PortionDraft = {
  material: 'wheat-bran',
  name: '',
  amount: '',
  moisture: '',
  weight: '',
  carbon: '',
  nitrogen: '',
};

const heapSchema = z.object({
  by: z.enum(['mass', 'volume', '']),
  portions: z.array(portionSchema.readonly()).min(1).readonly(),
  target: z.string(),
  starter: z.string(),
  /** '' while it follows from what goes in. */
  stage: z.enum([...stages, '']),
  depth: z.string(),
  width: z.string(),
  wanted: z.enum(['as-given', 'mass', 'volume', 'area']),
  wantedAmount: z.string(),
  spread: z.enum(['none', 'rate', 'depth']),
  spreadAmount: z.string(),
  /** On the wall clock; empty means no dates. */
  startAt: z.string(),
  air: z.string(),
});
export type HeapDraft = Readonly<z.infer<typeof heapSchema>>;
export const emptyHeap: HeapDraft = {
  by: '',
  portions: [
    { ...emptyPortion, material: 'wheat-bran' },
    { ...emptyPortion, material: 'soil' },
  ],
  target: '',
  starter: '',
  stage: '',
  depth: '',
  width: '',
  wanted: 'as-given',
  wantedAmount: '',
  spread: 'none',
  spreadAmount: '',
  startAt: '',
  air: '',
};

/** The stage that somebody chose; else that of what goes in: bran alone is not laid as soil is. */
export function stageOf({ stage, portions }: HeapDraft): Stage {
  if (stage !== '') return stage;
  const given = portions.filter(({ amount }) => amount.trim() !== '');
  return given.length > 0 && given.every(({ material }) => materialProfiles[material].family === 'bran')
    ? 'bran'
    : 'soil';
}

export const planDraftSchema = z.object({ starter: starterSchema, water: waterSchema, heap: heapSchema });
export type PlanDraft = Readonly<z.infer<typeof planDraftSchema>>;
export const emptyPlan: PlanDraft = { starter: emptyStarter, water: emptyWater, heap: emptyHeap };

/** The diluted starter is one liquid, wherever it is asked for. */
function withLiquid(plan: PlanDraft, liquid: string): PlanDraft {
  return {
    starter: { ...plan.starter, liquid },
    water: { ...plan.water, starter: liquid },
    heap: { ...plan.heap, starter: liquid },
  };
}

export function changeStarter(plan: PlanDraft, part: Partial<StarterDraft>): PlanDraft {
  const changed = { ...plan, starter: { ...plan.starter, ...part } };
  return part.liquid === undefined ? changed : withLiquid(changed, part.liquid);
}

/** What is wetted is what goes into a heap first, unless that is measured in buckets. */
export function changeWater(plan: PlanDraft, part: Partial<WaterDraft>): PlanDraft {
  const water = { ...plan.water, ...part };
  const [first = emptyPortion, ...others] = plan.heap.portions;
  const { material, mass: amount, moistureNow: moisture, weight } = water;
  const heap =
    plan.heap.by === 'volume'
      ? plan.heap
      : { ...plan.heap, portions: [{ ...first, material, amount, moisture, weight }, ...others] };
  const changed = { ...plan, water, heap };
  return part.starter === undefined ? changed : withLiquid(changed, part.starter);
}

export function changeHeap(plan: PlanDraft, part: Partial<HeapDraft>): PlanDraft {
  const heap = { ...plan.heap, ...part };
  const [first] = heap.portions;
  const isFirstThere = part.portions !== undefined && part.portions.length >= plan.heap.portions.length;
  const water =
    heap.by === 'mass' && first !== undefined && isFirstThere
      ? {
          ...plan.water,
          material: first.material,
          mass: first.amount,
          moistureNow: first.moisture,
          weight: first.weight,
        }
      : plan.water;
  const changed = { ...plan, water, heap };
  return part.starter === undefined ? changed : withLiquid(changed, part.starter);
}
