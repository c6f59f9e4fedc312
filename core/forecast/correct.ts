/**
 * A rise foretold by the members, corrected by what is known to be wrong with such rises.
 *
 *   rise(h) = Σ b_k(h) · x_k                                                                                         (1)
 *
 * An ensemble's mean put right by a regression on its own figures and on what was observed is the oldest way of
 * post-processing a forecast (model output statistics: Glahn and Lowry, J. Appl. Meteor. 11, 1203-1211, 1972; for
 * ensembles Gneiting et al., Mon. Wea. Rev. 133, 1098-1118, 2005; both from memory). Fitted for least absolute error at
 * eight horizons, straight between them. A deep bed keeps its pace and hardly feels the air; a shallow one does the
 * opposite. It never learns: its weights were fitted once, on development piles; what this very pile teaches is in
 * own-record.ts.
 */
import { freshnessOf, type PileNow, riseSeen, youthOf } from './pile-now.ts';

/** What the likest members do from now until the hour looked at. */
export interface MembersSay {
  readonly medianK: number;
  readonly meanK: number;
  /** Standard deviation, from the 10 and 90 % quantiles. */
  readonly spreadK: number;
}

/** Horizons of the fit [h]. */
export const knotsH: readonly number[] = [1, 2, 3, 6, 9, 12, 18, 24];
/** One row per term, one column per horizon. */
const weights: Readonly<Record<string, readonly number[]>> = {
  mean: [0.063, 0.359, 0.511, 0.613, 0.56, 0.535, 0.425, 0.351],
  agreed: [0.856, 0.577, 0.415, 0.294, 0.332, 0.326, 0.359, 0.355],
  medianByDepth: [-0.842, -0.862, -0.833, -0.784, -0.789, -0.793, -0.747, -0.69],
  meanWhileYoung: [0.0792, 0.0784, 0.112, 0.181, 0.242, 0.3, 0.435, 0.537],
  medianOfSoil: [-0.109, -0.106, -0.122, -0.162, -0.205, -0.254, -0.336, -0.367],
  hot: [-0.0031, -0.005, -0.0078, -0.0237, -0.0503, -0.084, -0.176, -0.283],
  lastHourByDepth: [0.974, 1.83, 2.5, 3.76, 4.46, 4.83, 5.09, 5.77],
  airOverDepth: [0.0007, 0.0019, 0.0036, 0.0105, 0.0165, 0.0208, 0.0189, 0.0078],
  excessOfShallow: [-0.0038, -0.0048, -0.0067, -0.0141, -0.024, -0.0376, -0.0768, -0.0947],
  lastHoursOfShallow: [0.0362, 0.048, 0.0405, -0.0444, -0.218, -0.411, -0.817, -0.361],
  fresh: [0.0933, 0.132, 0.17, 0.321, 0.506, 0.67, 0.965, 1.06],
  excessWhileFresh: [-0.0031, -0.0066, -0.01, -0.0194, -0.0286, -0.0354, -0.0465, -0.0644],
  workOfFalling: [-2.29, -4.34, -6.67, -15.1, -25.3, -36.5, -58.6, -67.9],
  workOfSoil: [0, -0.467, -1.05, -3.15, -5.77, -8.52, -12.7, -15.5],
  riseWhenEaten: [-0.012, -0.0279, -0.0512, -0.143, -0.26, -0.364, -0.558, -0.716],
};

/** Beyond this a bed is as slow as it gets [m], and this hot [K above `hotC`] as hot as it gets: no development pile was beyond. */
const deepestM = 0.8;
const hotC = 45;
const hottestK = 10;
/**
 * A bed that worked harder than this and begins to fall has run out of food: what it made lately it will lose [per day]. It falls for
 * sure from so much in three hours on [K], and one as thin as this hardly keeps any food's heat [m]. From the development piles of the
 * detection bench.
 */
const hardPerDay = 0.08;
const fallenK = 0.3;
const thinM = 0.1;
/** No development pile burnt more of its food in a day, or gave more of it back in a cold one; nor more of it in all [-]. */
const workPerDay = { least: -0.1, most: 0.6 } as const;
const mostDone = 1.3;

const table = hourly(weights);
const x = new Float64Array(Object.keys(weights).length);

/**
 * @param airAheadK Mean of the air from now until then, above the air as the pile feels it [K].
 *
 * @example
 * // Bran 0.3 m deep, 21 h old, at 41 °C, one degree more in the last hour; half of the likest members rise by 4 K or more in
 * // 12 h, 3.5 K on the mean, 2 K apart; the air ahead is 1 K warmer.
 * correctedRise({ medianK: 4, meanK: 3.5, spreadK: 2 }, pile, 1, 12) // => 4.07
 */
export function correctedRise(say: MembersSay, pile: PileNow, airAheadK: number, aheadH: number): number {
  const { medianK, meanK, spreadK } = say;
  const depthM = Math.min(deepestM, pile.depthM);
  const excessK = pile.nowC - pile.airC;
  const shallow = pile.shallow ? 1 : 0;
  const fresh = freshnessOf(pile);
  const agreed = medianK === 0 ? 0 : medianK ** 3 / (medianK ** 2 + spreadK ** 2);
  x[0] = meanK;
  x[1] = agreed;
  x[2] = medianK * depthM;
  x[3] = meanK * youthOf(pile);
  x[4] = pile.soil ? medianK : 0;
  x[5] = Math.min(hottestK, Math.max(0, pile.nowC - hotC));
  x[6] = (riseSeen(pile, 1) ?? 0) * depthM;
  x[7] = airAheadK / Math.max(0.1, depthM);
  x[8] = shallow * excessK;
  x[9] = shallow * (riseSeen(pile, 3) ?? 0);
  x[10] = fresh;
  x[11] = fresh * excessK;
  const perDay = Math.min(workPerDay.most, Math.max(workPerDay.least, pile.workPerDay));
  x[12] = Math.max(0, perDay - hardPerDay) * fallingShare(pile) * (1 - thinM / Math.max(thinM, depthM));
  x[13] = pile.soil ? perDay : 0;
  x[14] = Math.min(mostDone, pile.workDone) * Math.max(0, riseSeen(pile, 6) ?? 0);
  return sumAt(table, x, aheadH);
}

/** How surely a core falls, by its last three hours [-]. */
function fallingShare(pile: PileNow): number {
  return Math.min(1, Math.max(0, -(riseSeen(pile, 3) ?? 0) / fallenK));
}

/** The weights of each whole hour ahead, hour after hour: they are asked for in every hour of every pile. */
export function hourly(ofTerms: Readonly<Record<string, readonly number[]>>): Float64Array {
  const terms = Object.values(ofTerms);
  const longest = knotsH.at(-1) ?? 0;
  const filled = new Float64Array((longest + 1) * terms.length);
  for (let hour = 0; hour <= longest; hour += 1) {
    for (const [term, values] of terms.entries()) filled[hour * terms.length + term] = atHorizon(values, hour);
  }
  return filled;
}

/** Sum of the terms by their weights at a whole hour ahead, within the table. */
export function sumAt(filled: Float64Array, terms: Float64Array, aheadH: number): number {
  let sum = 0;
  for (let term = 0; term < terms.length; term += 1)
    sum += (filled[aheadH * terms.length + term] ?? 0) * (terms[term] ?? 0);
  return sum;
}

/** Straight between horizons; before the first and after the last it stays. */
export function atHorizon(values: readonly number[], aheadH: number): number {
  let right = 0;
  while (right < knotsH.length - 1 && (knotsH[right] ?? 0) < aheadH) right += 1;
  const to = knotsH[right] ?? 0;
  const from = knotsH[right - 1] ?? to;
  const last = values[right] ?? 0;
  const before = values[right - 1] ?? last;
  return to === from || aheadH >= to ? last : before + ((last - before) * (aheadH - from)) / (to - from);
}
