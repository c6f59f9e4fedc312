/** Mass balances of water, on wet basis. It never gives a negative mass: what cannot be reached is undefined. */

export interface WetMass {
  readonly massKg: number;
  readonly moistureFrac: number;
}

/**
 * Moisture of a mix.
 *
 *   M = Σ Q M / Σ Q
 *
 * @param parts Masses as they are, Q [kg], with moistures, wet basis, M [-]. At least one.
 * @returns Moisture, wet basis [-].
 * @example mixedMoisture([{ massKg: 1, moistureFrac: 0.6 }, { massKg: 1, moistureFrac: 0.2 }]) // => 0.4
 * @see Cornell Waste Management Institute, "Calculating moisture content" (compost.css.cornell.edu/calc).
 */
export function mixedMoisture(parts: readonly WetMass[]): number {
  const massKg = parts.reduce((sum, part) => sum + part.massKg, 0);
  return parts.reduce((sum, part) => sum + part.massKg * part.moistureFrac, 0) / massKg;
}

/**
 * Mass of a second material that brings a first one to a moisture.
 *
 *   Q2 = Q1 (G − M1) / (M2 − G)
 *
 * With water as the second material, M2 = 1, it is the water to add.
 *
 * @param massKg First material as it is, Q1 [kg].
 * @param moistureFrac Its moisture, M1 [-].
 * @param addedMoistureFrac Moisture of the second, M2 [-]; 1 is water.
 * @param goalFrac Moisture wanted, G [-].
 * @returns Second material, Q2 [kg]; undefined where the goal does not lie between the two.
 * @example massToReachKg(10, 0.77, 0.35, 0.6) // => 6.8
 * @example massToReachKg(10, 0.12, 1, 0.6) // => 12
 * @see Cornell Waste Management Institute, "Calculating moisture content" (second-hand); first worked value theirs.
 */
export function massToReachKg(
  massKg: number,
  moistureFrac: number,
  addedMoistureFrac: number,
  goalFrac: number,
): number | undefined {
  if (goalFrac === moistureFrac) return 0;
  const addedKg = (massKg * (goalFrac - moistureFrac)) / (addedMoistureFrac - goalFrac);
  return addedKg > 0 && Number.isFinite(addedKg) ? addedKg : undefined;
}
