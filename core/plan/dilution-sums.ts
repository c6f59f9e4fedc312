/**
 * The arithmetic of 1:N, in both readings.
 *
 * The liquid is what stands in the vessel at the end, starter counted in. With one part in N the starter is its N-th
 * part; with one part and N parts of water it is its (N + 1)-th.
 */
import type { DilutionConvention } from '../../shared/contracts/plan.ts';

/** Parts of the finished liquid for each part of starter. */
export function partsOf(ratio: number, convention: DilutionConvention): number {
  return convention === 'part-in' ? ratio : ratio + 1;
}

/**
 * Starter for a finished liquid.
 *
 *   part-in: V / N      part-plus: V / (N + 1)
 *
 * @param liquidL Finished liquid, V [L].
 * @param ratio The N of 1:N [-], at least 1.
 * @returns Starter [mL].
 * @example starterMlFor(10, 500, 'part-in') // => 20
 * @example starterMlFor(10, 500, 'part-plus') // => 19.96
 */
export function starterMlFor(liquidL: number, ratio: number, convention: DilutionConvention): number {
  return (liquidL * 1000) / partsOf(ratio, convention);
}

/**
 * Finished liquid that a starter makes: the inverse of starterMlFor.
 *
 * @returns Finished liquid, starter counted in [L].
 * @example liquidLFrom(16, 500, 'part-in') // => 8
 */
export function liquidLFrom(starterMl: number, ratio: number, convention: DilutionConvention): number {
  return (starterMl / 1000) * partsOf(ratio, convention);
}

/**
 * The N that a measured starter really is.
 *
 *   part-in: V / s      part-plus: (V − s) / s
 *
 * @param starterMl Starter, s [mL], less than the liquid.
 * @example ratioOf(8, 100, 'part-in') // => 80
 */
export function ratioOf(liquidL: number, starterMl: number, convention: DilutionConvention): number {
  const liquidMl = liquidL * 1000;
  return (convention === 'part-in' ? liquidMl : liquidMl - starterMl) / starterMl;
}
