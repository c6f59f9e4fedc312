/**
 * The carbon to nitrogen ratio of a mix, as a balance of masses. It never averages ratios: a part rich in nitrogen
 * weighs more than its share of volume or mass says.
 */
import type { WetMass } from './moisture-sums.ts';

export interface CarbonNitrogenPart extends WetMass {
  /** Of the dry matter [-]. */
  readonly carbonFrac: number;
  readonly nitrogenFrac: number;
}

/**
 * Carbon to nitrogen ratio of a mix.
 *
 *   R = Σ Q C (1 − M) / Σ Q N (1 − M)
 *
 * @param parts Masses as they are, Q [kg], moistures, wet basis, M, carbon C and nitrogen N of the dry matter [-].
 * @returns R [-], by mass.
 * @remarks For figures given "as fed", that is of the wet mass, give a moisture of 0.
 * @example carbonNitrogenRatio([grass, leaves]) // => 30, for 10 kg of grass and 3.474 kg of leaves
 * @see Cornell Waste Management Institute, "C/N ratio" (compost.css.cornell.edu/calc/2.html; the formula from memory,
 *   its variables read there).
 */
export function carbonNitrogenRatio(parts: readonly CarbonNitrogenPart[]): number {
  const ofDry = (share: 'carbonFrac' | 'nitrogenFrac') =>
    parts.reduce((sum, part) => sum + part.massKg * (1 - part.moistureFrac) * part[share], 0);
  return ofDry('carbonFrac') / ofDry('nitrogenFrac');
}
