/**
 * Everything the judge remembers of a pile, as plain data that survives JSON: one slice for each module that steps it. Types come
 * from the schemas by which a kept state is read; nothing is checked while a pile is judged.
 */
import { z } from 'zod';
import type { PileSetup } from '../profiles/pile-setup.ts';
import { aheadSchema, startAhead } from './ahead.ts';
import { airSchema, startAir } from './air.ts';
import { apartSchema, startApart } from './apart.ts';
import { phaseSchema, startPhase } from './batch-phase.ts';
import { coldSchema, startCold } from './cold.ts';
import { disturbanceSchema, startDisturbance } from './disturbance.ts';
import { startWater, waterSchema } from './follow-water.ts';
import { hoursSchema, startHours } from './hours.ts';
import { lateTurningSchema, startLateTurning } from './late-turning.ts';
import { positionsSchema, startPositions } from './position.ts';
import { stallSchema, startStall } from './stall.ts';
import { startSwapped, swappedSchema } from './swapped.ts';
import { startWork, workSchema } from './work-done.ts';

export const judgeStateSchema = z.object({
  hours: hoursSchema,
  positions: positionsSchema,
  air: airSchema,
  water: waterSchema,
  work: workSchema,
  phase: phaseSchema,
  disturbance: disturbanceSchema,
  lateTurning: lateTurningSchema,
  stall: stallSchema,
  cold: coldSchema,
  apart: apartSchema,
  swapped: swappedSchema,
  ahead: aheadSchema,
});

/**
 * For reading: a slice is written to by the functions of its own module alone, to which it is handed as it stands here
 * (TypeScript lets a function ask for one that it may write to).
 */
export type JudgeState = ForReading<z.infer<typeof judgeStateSchema>>;

type ForReading<T> = T extends readonly unknown[]
  ? T
  : T extends object
    ? { readonly [Key in keyof T]: ForReading<T[Key]> }
    : T;

export function startState(setup: PileSetup): JudgeState {
  const { startedAtMs, recipe, limits } = setup;
  return {
    hours: startHours(startedAtMs),
    positions: startPositions(),
    air: startAir(),
    water: startWater(recipe, limits),
    work: startWork(),
    phase: startPhase(startedAtMs),
    disturbance: startDisturbance(),
    lateTurning: startLateTurning(),
    stall: startStall(),
    cold: startCold(),
    apart: startApart(),
    swapped: startSwapped(),
    ahead: startAhead(),
  };
}
