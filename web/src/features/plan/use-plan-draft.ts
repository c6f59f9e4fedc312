/** The figures of the planner: one set for its three pages, kept on this device while they are half done. */
import { useState } from 'preact/hooks';
import { z } from 'zod';
import { forgetHalfDone, halfDone, keepHalfDone } from '../../data/half-done.ts';
import { restated, typedUnitsSchema, unitsNow } from '../../data/plan-units.ts';
import { type Turn, useRestated } from '../../ui/parts/measure-field.tsx';
import { wantedKinds } from './plan-asks.ts';
import {
  changeHeap,
  changeStarter,
  changeWater,
  emptyPlan,
  type HeapDraft,
  type PlanDraft,
  planDraftSchema,
  type StarterDraft,
  type WaterDraft,
} from './plan-draft.ts';

const name = 'plan';
const keptSchema = z.object({ plan: planDraftSchema, units: typedUnitsSchema });

function keptPlan(): PlanDraft {
  const kept = halfDone(name, keptSchema);
  if (!kept) return emptyPlan;
  return inOtherUnits(kept.plan, (kind, text) => restated(kind, text, kept.units, unitsNow()));
}

function keep(plan: PlanDraft): void {
  if (JSON.stringify(plan) === JSON.stringify(emptyPlan)) forgetHalfDone(name);
  else keepHalfDone(name, { plan, units: unitsNow() });
}

export function usePlanDraft() {
  const [plan, setPlan] = useState(keptPlan);
  const set = (next: PlanDraft) => {
    setPlan(next);
    keep(next);
  };
  const units = useRestated(plan, set, inOtherUnits);
  return {
    plan,
    units,
    isEmpty: JSON.stringify(plan) === JSON.stringify(emptyPlan),
    clear: () => set(emptyPlan),
    change: {
      starter: (part: Partial<StarterDraft>) => set(changeStarter(plan, part)),
      water: (part: Partial<WaterDraft>) => set(changeWater(plan, part)),
      heap: (part: Partial<HeapDraft>) => set(changeHeap(plan, part)),
    },
  };
}

/** What is typed, said in other units. */
function inOtherUnits({ starter, water, heap }: PlanDraft, turn: Turn): PlanDraft {
  return {
    starter: { ...starter, liquid: turn('volumeL', starter.liquid) },
    water: {
      ...water,
      mass: turn('massKg', water.mass),
      starter: turn('volumeL', water.starter),
      meant: turn('volumeL', water.meant),
      weight: turn('densityKgM3', water.weight),
    },
    heap: heapInOtherUnits(heap, turn),
  };
}

function heapInOtherUnits(was: HeapDraft, turn: Turn): HeapDraft {
  return {
    ...was,
    starter: turn('volumeL', was.starter),
    depth: turn('depthM', was.depth),
    width: turn('lengthM', was.width),
    air: turn('tempC', was.air),
    wantedAmount: was.wanted === 'as-given' ? was.wantedAmount : turn(wantedKinds[was.wanted], was.wantedAmount),
    spreadAmount: turn(was.spread === 'rate' ? 'rateKgM2' : 'depthM', was.spreadAmount),
    portions: was.portions.map((one) => ({
      ...one,
      amount: turn(was.by === 'volume' ? 'volumeL' : 'massKg', one.amount),
      weight: turn('densityKgM3', one.weight),
    })),
  };
}
