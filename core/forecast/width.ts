/**
 * How far off a forecast is likely to be.
 *
 *   half(h) = Σ c_k(h) · z_k,   c_k ≥ 0                                                                              (1)
 *
 * Fitted by the pinball loss of the 80 % quantile of the absolute error on development piles, so that four in five fall
 * inside; a fan is as narrow as it can be while that holds (sharpness subject to calibration: Gneiting and Raftery, J.
 * Amer. Stat. Assoc. 102, 359-378, 2007; from memory).
 */
import { hourly, sumAt } from './correct.ts';
import { freshnessOf, type PileNow, youthOf } from './pile-now.ts';

/** One row per term, one column per horizon of `knotsH`. */
const weights: Readonly<Record<string, readonly number[]>> = {
  always: [0.235, 0.225, 0.225, 0.246, 0.27, 0.297, 0.35, 0.408],
  members: [0.137, 0.173, 0.131, 0.176, 0.259, 0.368, 0.465, 0.486],
  rise: [0.0204, 0.0702, 0.111, 0.195, 0.22, 0.211, 0.145, 0.0753],
  ways: [0.114, 0.303, 0.378, 0.468, 0.532, 0.529, 0.576, 0.642],
  fresh: [0.0101, 0.0554, 0.116, 0.278, 0.446, 0.583, 0.594, 0.53],
  shallow: [0.0035, 0.0085, 0.0446, 0.159, 0.242, 0.306, 0.281, 0.277],
  young: [0.0102, 0.0046, 0.0049, 0.026, 0.236, 0.538, 1.62, 3.14],
  againstMedian: [1.03, 0.928, 0.86, 0.69, 0.607, 0.532, 0.532, 0.507],
};

const table = hourly(weights);
const z = new Float64Array(Object.keys(weights).length);

export interface Unsure {
  /** Standard deviation of the likest members, and of the ways of looking ahead [K]. */
  readonly membersK: number;
  readonly waysK: number;
  /** The rise that is foretold, and that of the median member [K]. */
  readonly riseK: number;
  readonly medianK: number;
}

/**
 * @returns Half the width of the 10-90 % fan [K].
 *
 * @example
 * // Bran 0.3 m deep, 21 h old: members 2 K apart, ways 1 K, 3 K foretold, 4 K by the median member.
 * halfWidth({ membersK: 2, waysK: 1, riseK: 3, medianK: 4 }, pile, 12) // => 3.03
 */
export function halfWidth({ membersK, waysK, riseK, medianK }: Unsure, pile: PileNow, aheadH: number): number {
  z[0] = 1;
  z[1] = membersK;
  z[2] = Math.abs(riseK);
  z[3] = waysK;
  z[4] = freshnessOf(pile);
  z[5] = pile.shallow ? 1 : 0;
  z[6] = youthOf(pile);
  z[7] = Math.abs(medianK - riseK);
  return sumAt(table, z, aheadH);
}
