/**
 * Whether a bed that was at work has eaten what was ready in it, however much that was: bran of another mill, or that lay wet before,
 * may hold half of what is usual. What its culture lacks beside food is better known than how much there was.
 */
import { msPerHour } from '../../shared/units.ts';
import { wetBasis } from '../physics/water-balance.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';
import { type Air, isAirProbed } from './air.ts';
import type { BatchPhase } from './batch-phase.ts';
import type { WaterState } from './follow-water.ts';
import { lossAfterH } from './heat-memory.ts';
import type { Positions } from './position.ts';
import type { Work } from './work-done.ts';

/** A bed that has burnt this share of what is usual for its material has been at work [-]. From the development piles of the detection bench. */
const atWorkFrac = 0.15;
/**
 * A bed that has run out of food cools as one that makes no heat. One that cools faster, by this share of its food, lost its heat in
 * another way [-]. Where no probe measures the air that may be the weather, until half of what it has done is undone [-]. From the
 * development piles of the detection bench.
 */
const lostFrac = 0.04;
const lostShareUnprobed = 0.5;

/**
 * So far below what its stage wants a bed is too dry to go on [-]: bran below 40 %, where composting is greatly reduced (Cornell Waste
 * Management Institute, "Getting the right mix").
 */
const tooDryFrac = 0.1;

/** What is given of the bed beside its temperature of now. */
interface EatenSight {
  readonly work: Readonly<Work>;
  readonly water: Readonly<WaterState>;
  readonly phase: Readonly<BatchPhase>;
  readonly positions: Readonly<Positions>;
  readonly air: Readonly<Air>;
}

/** Of a bed that is past its heat and warm enough to work: nothing that is known holds it back but the want of food. */
export function hasEaten(sight: EatenSight, { limits }: PileSetup): boolean {
  const { work, water, phase } = sight;
  if (phase.now !== 'cooling' && phase.now !== 'settled') return false;
  const mostLost = isAirProbed(sight) ? lostFrac : lostShareUnprobed * work.most;
  if (work.most < atWorkFrac || work.most - work.done > mostLost) return false;
  const isCooked = (sight.positions.core?.heat?.lossMs ?? 0) >= lossAfterH * msPerHour;
  // A bed that has been comfortably warm has had its air.
  const hadItsAir = (phase.peakC ?? 0) >= limits.comfortMinC;
  const moistureFrac = wetBasis(water.waterKgKg);
  const isTooWet = !hadItsAir && moistureFrac > limits.moistureMaxFrac;
  const isTooDry = moistureFrac < limits.moistureMinFrac - tooDryFrac;
  return !isCooked && !isTooDry && !isTooWet;
}
