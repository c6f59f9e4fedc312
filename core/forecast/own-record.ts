/**
 * Several ways of looking ahead, weighed by how well each did on this very pile.
 *
 * Exponentially weighted forecasters (Cesa-Bianchi and Lugosi, "Prediction, Learning, and Games", 2006, ch. 2; from memory):
 *   w_i ∝ prior_i · exp( −η · L_i ),   L_i ← γ · L_i + min(cap, |foretold_i − seen| / scale)                         (1)
 * So a heap of many tonnes, which keeps its pace for days, is soon looked at by its own trend, and a bed in the sun by
 * what it did the day before. The fan learns likewise how wide it must be on this pile:
 *   widen = ( (n_0 + Σ fade · |error| / half / usual) / (n_0 + Σ fade) ) ^ 0.7                                       (2)
 * It never scores a forecast over which a hand was on the pile: nobody can foresee a hand.
 */
import { z } from 'zod';
import { type PileNow, riseSeen } from './pile-now.ts';

/** In this order: the corrected members; no change; the last 3 h, and the last 6 h, carried on and dying away; the day before. */
export const ways = 5;
/** Weights before anything was seen [-]; our own choice, no source. */
const prior: readonly number[] = [1, 0.1, 0.1, 0.05, 0.05];
/** A trend dies away by this an hour (damped trend: Gardner and McKenzie, Management Science 31, 1237-1246, 1985; from memory). */
const damping = 0.97;
/**
 * η, γ an hour, the cap on one loss, and the horizons scored [h] with what an error there is measured against [K, per K foretold];
 * our own choice, no source.
 */
const learning = 0.1;
const fading = 0.97;
const worstLoss = 4;
const scored = [
  // `usual` is the mean of |error| over half the fan's width, as long as the fan is right.
  { aheadH: 6, atLeastK: 0.25, perK: 0.3, usual: 0.644 },
  { aheadH: 12, atLeastK: 0.35, perK: 0.35, usual: 0.656 },
] as const;
const longestH = 12;
/** n_0, the exponent, the most that one error counts [-], and how far the fan may be drawn in or out. */
const width = { asIf: 20, boldness: 0.7, worst: 3, least: 0.5, most: 2 };

const forecastAheadSchema = z.object({
  byWayK: z.array(z.number()),
  riseK: z.number(),
  halfK: z.number(),
});
/** For one scored horizon: the rise by each way, the rise that was forecast, half the fan's width before it was widened [K]. */
export type ForecastAhead = z.infer<typeof forecastAheadSchema>;

const madeSchema = z.object({ hour: z.number(), nowC: z.number(), ahead: z.array(forecastAheadSchema) });
/** What was foretold at the end of an hour, for each scored horizon. */
type MadeForecast = z.infer<typeof madeSchema>;

export const ownRecordSchema = z.object({
  /** L of each way [-]. */
  losses: z.array(z.number()).length(ways),
  /** Faded sum of errors over the usual, and of their count: how wide the fan must be. */
  errors: z.number(),
  counted: z.number(),
  /** Oldest first, no older than the longest horizon. */
  made: z.array(madeSchema),
});
export type OwnRecord = z.infer<typeof ownRecordSchema>;

export function startRecord(): OwnRecord {
  return { losses: new Array<number>(ways).fill(0), errors: 0, counted: 0, made: [] };
}

/**
 * How far a rise of `perHourK` goes in `aheadH` hours while it dies away [K]: k · φ (1 − φ^h) / (1 − φ).
 *
 * @example
 * dampedRise(0.5, 12) // => 4.95
 */
export function dampedRise(perHourK: number, aheadH: number): number {
  return (perHourK * damping * (1 - damping ** aheadH)) / (1 - damping);
}

/** Fills `into` with the rise by each way. @param corrected Rise by the corrected members [K]. */
export function risesByWay(into: Float64Array, corrected: number, pile: PileNow, aheadH: number): void {
  into[0] = corrected;
  into[1] = 0;
  into[2] = dampedRise((riseSeen(pile, 3) ?? 0) / 3, aheadH);
  into[3] = dampedRise((riseSeen(pile, 6) ?? 0) / 6, aheadH);
  into[4] = riseDayBefore(pile, aheadH);
}

/** What the core did in the same hours a day ago; nothing where that is not known. */
function riseDayBefore({ seen, hour, quietH }: PileNow, aheadH: number): number {
  if (quietH < 24) return 0;
  const then = seen(hour - 24);
  const later = seen(hour - 24 + aheadH);
  return then === null || later === null ? 0 : later - then;
}

/** Scores what fell due at this hour. Call once an hour that was measured, before anything is forecast anew. */
export function scoreRecord(record: OwnRecord, { hour, nowC, quietH }: PileNow): void {
  for (let way = 0; way < ways; way += 1) record.losses[way] = fading * (record.losses[way] ?? 0);
  record.errors *= fading;
  record.counted *= fading;
  for (const [which, { aheadH, atLeastK, perK, usual }] of scored.entries()) {
    if (quietH < aheadH) continue;
    const made = record.made.find((one) => one.hour === hour - aheadH);
    const ahead = made?.ahead[which];
    if (made === undefined || ahead === undefined) continue;
    const seenK = nowC - made.nowC;
    const scaleK = atLeastK + perK * Math.abs(ahead.byWayK[0] ?? 0);
    for (let way = 0; way < ways; way += 1) {
      const loss = Math.abs((ahead.byWayK[way] ?? 0) - seenK) / scaleK;
      record.losses[way] = (record.losses[way] ?? 0) + Math.min(worstLoss, loss);
    }
    record.errors += Math.min(width.worst, Math.abs(ahead.riseK - seenK) / ahead.halfK) / usual;
    record.counted += 1;
  }
}

/** Writes down what is foretold now. */
export function keepForecast(record: OwnRecord, made: MadeForecast): void {
  record.made = record.made.filter(({ hour }) => hour > made.hour - longestH && hour < made.hour);
  record.made.push(made);
}

/** Which of the scored horizons this hour ahead is; -1 when none. */
export function scoredAt(aheadH: number): number {
  return scored.findIndex((one) => one.aheadH === aheadH);
}

/** Fills `into` with the weight of each way; they sum to 1. */
export function weighWays(into: Float64Array, { losses }: OwnRecord): void {
  const least = Math.min(...losses);
  let sum = 0;
  for (let way = 0; way < ways; way += 1) {
    into[way] = (prior[way] ?? 0) * Math.exp(-learning * ((losses[way] ?? 0) - least));
    sum += into[way] ?? 0;
  }
  for (let way = 0; way < ways; way += 1) into[way] = (into[way] ?? 0) / sum;
}

/** By how much the fan is wider, on this pile, than it usually must be. */
export function widening({ errors, counted }: OwnRecord): number {
  const against = (width.asIf + errors) / (width.asIf + counted);
  return Math.min(width.most, Math.max(width.least, against ** width.boldness));
}
