/**
 * How far a batch has come, as activity-hours against what its stage needs. It never says ready at 100: it means that
 * the heat has done its share. The index is our own, no published one was found.
 */
import type { Stage } from '../../shared/names.ts';
import { stageProfiles } from '../../shared/profiles/stages.ts';
import { cardinalTemperatureFactor, cultureSet } from '../physics/cardinal-temperature.ts';
import { haugMoistureFactor } from '../physics/haug.ts';

/** From this much above the air on, an hour counts in full [K]: a heap without heat of its own is not working; our own choice, no source. */
const ownHeatK = 5;

/**
 * Work done in one hour, against an hour at the culture's best: γ(T) · f(m) · min(1, excess / 5 K).
 *
 * @example hourActivity(40, 0.6, 20) // => 0.972
 */
export function hourActivity(coreC: number, moistureFrac: number, excessK: number): number {
  const ownHeat = Math.min(1, Math.max(0, excessK / ownHeatK));
  return cardinalTemperatureFactor(coreC, cultureSet) * haugMoistureFactor(moistureFrac) * ownHeat;
}

/** 0..100, never above. */
export function progressPct(activityH: number, stage: Stage): number {
  return Math.min(100, (100 * activityH) / stageProfiles[stage].neededActivityH);
}
