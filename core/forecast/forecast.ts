/**
 * Where the core goes in the next day.
 *
 * The members that behaved as this pile did (alike.ts) are laid on what was seen and put right (correct.ts); with
 * trends and the day before they are weighed by their record on this very pile (own-record.ts); the fan is as wide as
 * such forecasts were wrong (width.ts). It never foresees a hand: the next turn or watering is not in it.
 */
import { z } from 'zod';
import type { ExpectedBand } from '../expect/band.ts';
import { openMembers } from '../expect/packed-members.ts';
import { type Like, likest, mostAlike } from './alike.ts';
import { correctedRise } from './correct.ts';
import {
  type ForecastAhead,
  keepForecast,
  type OwnRecord,
  risesByWay,
  scoredAt,
  ways,
  weighWays,
  widening,
} from './own-record.ts';
import type { PileNow } from './pile-now.ts';
import { normalShare, sortOrder, weightedMean, weightedQuantile, weightedSd } from './weighted.ts';
import { halfWidth } from './width.ts';

export const forecastSchema = z.object({
  /** The hour's end from which it looks ahead; index 0 of each list is one hour later. */
  atMs: z.number(),
  p10C: z.array(z.number()),
  p50C: z.array(z.number()),
  p90C: z.array(z.number()),
  /** How likely it is to pass the limit within 12 h: the mean of what the likest members and the fan say. */
  overLikelihood: z.number(),
  /** Share of the likest members that pass it within 12 h, and the median hour at which they do; null when none does. */
  overShare: z.number(),
  overInH: z.number().nullable(),
});
export type Forecast = Readonly<z.infer<typeof forecastSchema>>;

/** How far a forecast looks ahead, and within how long it tells whether the limit is passed [h]; our own choice. */
export const forecastH = 24;
const overWithinH = 12;
/** From the middle of a normal distribution to its 90 % quantile [standard deviations]. */
const tenthToNine = 1.2816;
/** Drying and a change of the weather take a core no further below the air that is awaited than this [K]; our own choice. */
const belowAirK = 3;
/** No core is warmer than boiling water at sea level [°C]. */
const boilingC = 100;

const best: Like[] = Array.from({ length: mostAlike }, () => ({ member: 0, hour: 0, distance: 0 }));
const weights = new Float64Array(mostAlike);
const values = new Float64Array(mostAlike);
const passedAt = new Int32Array(mostAlike);
/** Ranks by value at the hour looked at; kept from hour to hour, where it is nearly sorted already. */
const order = new Int32Array(mostAlike);
const wayWeights = new Float64Array(ways);
const byWayK = new Float64Array(ways);

/** @param record What this pile taught so far; what is foretold now is written into it. */
export function forecastCore(band: ExpectedBand, pile: PileNow, record: OwnRecord): Forecast | null {
  if (band.members === undefined) return null;
  const members = openMembers(band.members);
  const { hour, atMs, nowC, limitC } = pile;
  const found = likest(best, members, pile, forecastH);
  if (found === 0) return null;
  weighMembers(found);
  weighWays(wayWeights, record);
  const widen = widening(record);
  const scored: ForecastAhead[] = [];
  const p10C: number[] = [];
  const p50C: number[] = [];
  const p90C: number[] = [];
  let over = 0;
  let fanOver = 0;
  let airSumC = 0;
  let coolestC = pile.airC - belowAirK;
  let halfK = 0;
  for (let ahead = 1; ahead <= forecastH; ahead += 1) {
    const passing = riseWithMembers(members, pile, found, ahead);
    if (ahead <= overWithinH) over += passing;
    sortOrder(order, values, found);
    const at = (share: number): number => weightedQuantile(order, values, weights, found, share);
    const medianK = at(0.5);
    const spreadK = (at(0.9) - at(0.1)) / (2 * tenthToNine); // as if normal
    const meanK = weightedMean(values, weights, found);
    const airC = band.airC?.[hour + ahead] ?? pile.airC;
    airSumC += airC;
    coolestC = Math.min(coolestC, airC - belowAirK);
    risesByWay(
      byWayK,
      correctedRise({ medianK, meanK, spreadK }, pile, airSumC / ahead - pile.airC, ahead),
      pile,
      ahead,
    );
    const riseK = weightedMean(byWayK, wayWeights, ways);
    const waysK = weightedSd(byWayK, wayWeights, ways);
    const half = halfWidth({ membersK: spreadK, waysK, riseK, medianK }, pile, ahead);
    // What is not known at noon is not known better at one o'clock.
    halfK = Math.max(halfK, half * widen);
    // However fast it goes now: by itself no core cools below the air, nor warms beyond boiling.
    const middleC = Math.min(Math.max(nowC, boilingC), Math.max(Math.min(nowC, coolestC), nowC + riseK));
    if (ahead <= overWithinH) fanOver = Math.max(fanOver, normalShare((middleC - limitC) / (halfK / tenthToNine)));
    p50C.push(tenth(middleC));
    p10C.push(tenth(Math.max(middleC - halfK, Math.min(middleC, coolestC))));
    p90C.push(tenth(middleC + halfK));
    if (scoredAt(ahead) >= 0)
      scored.push({ byWayK: Array.from(byWayK, hundredth), riseK: hundredth(riseK), halfK: hundredth(half) });
  }
  keepForecast(record, { hour, nowC, ahead: scored });
  // Members are too sure of themselves, the fan is not sure enough: their mean comes true as often as it says.
  const overLikelihood = hundredth((over + fanOver) / 2);
  return { atMs, p10C, p50C, p90C, overLikelihood, overShare: hundredth(over), overInH: medianPass(found) };
}

/** Puts into `values` how far each member has risen by then [K]. @returns The weight of those that pass the limit in this very hour. */
function riseWithMembers(
  members: ReturnType<typeof openMembers>,
  { nowC, limitC }: PileNow,
  found: number,
  ahead: number,
): number {
  let passing = 0;
  for (let rank = 0; rank < found; rank += 1) {
    const like = best[rank];
    if (like === undefined) continue;
    const from = like.member * members.steps + like.hour - members.firstHour;
    const last = (like.member + 1) * members.steps - 1;
    const rise = 0.01 * ((members.coreCentiC[Math.min(last, from + ahead)] ?? 0) - (members.coreCentiC[from] ?? 0));
    values[rank] = rise;
    if (nowC + rise > limitC && passedAt[rank] === 0) {
      passedAt[rank] = ahead;
      passing += weights[rank] ?? 0;
    }
  }
  return passing;
}

function weighMembers(found: number): void {
  const nearest = best[0]?.distance ?? 0;
  let total = 0;
  for (let rank = 0; rank < found; rank += 1) {
    const weight = Math.exp(-0.5 * ((best[rank]?.distance ?? 0) - nearest));
    weights[rank] = weight;
    total += weight;
    passedAt[rank] = 0;
    order[rank] = rank;
  }
  for (let rank = 0; rank < found; rank += 1) weights[rank] = (weights[rank] ?? 0) / total;
}

/** Hour by which half of the weight that passes at all has passed; null when none does. */
function medianPass(found: number): number | null {
  let total = 0;
  for (let rank = 0; rank < found; rank += 1) if ((passedAt[rank] ?? 0) > 0) total += weights[rank] ?? 0;
  if (total === 0) return null;
  let sum = 0;
  for (let ahead = 1; ahead <= forecastH; ahead += 1) {
    for (let rank = 0; rank < found; rank += 1) if (passedAt[rank] === ahead) sum += weights[rank] ?? 0;
    if (sum >= total / 2) return ahead;
  }
  return forecastH;
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

function hundredth(value: number): number {
  return Math.round(value * 100) / 100;
}
