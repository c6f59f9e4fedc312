/**
 * core/forecast/forecast.ts: where the core goes in the next day, by the members that behaved as this pile did.
 *
 * Takes:  the ensemble's curves, the core hour by hour as seen, the hour.
 * Gives:  a fan of 24 hours and the likelihood of passing a limit.
 * Never:  foresees a hand: the next turn or watering is not in it.
 *
 * Each member may run some hours early or late. It is weighed by how like it is to what was seen: its temperature now and
 * its rise over 3, 6, 12 and 24 hours, each against a stated error. Its own further rise is then laid on what was seen.
 */
import type { ExpectedBand } from '../curve/band.ts';

export interface Forecast {
  /** The hour's end from which it looks ahead; index 0 of each list is one hour later. */
  readonly atMs: number;
  readonly p10C: number[];
  readonly p50C: number[];
  readonly p90C: number[];
  /** Share of the weight that passes the limit within 12 h, and the median hour at which it does; null when none does. */
  readonly overLikelihood: number;
  readonly overInH: number | null;
}

export const forecastH = 24;
export const overWithinH = 12;

/**
 * How far a fitting member may be off [K]: its level, and its rise over 3, 6, 12, 24 h. The best published models miss a
 * curve by 2 to 5 °C (Mason 2006, second-hand); a rise over few hours is known better than a level.
 */
const errorK = { level: 3, rise3: 0.2, rise6: 0.35, rise12: 0.8, rise24: 1.8 };
/** Members may be this much early or late [h], at this cost each. */
const shiftsH: readonly number[] = [-18, -12, -8, -5, -3, -1, 0, 1, 3, 5, 8, 12, 18];
const shiftErrorH = 14;
/** A shallow bed goes with the air: a member may be a day off, but not half a day. */
const shallowShiftsH: readonly number[] = [-24, -2, -1, 0, 1, 2, 24];
/** What the model does not know adds this per root hour [K], and this share of the rise it foretells; from the development piles. */
const unknownKPerRootH = 0.27;
const unknownShare = 0.45;
/** How much of a foretold rise is believed at best, and how fast disagreement eats it; from the development piles. */
const mostTrust = 0.88;
const doubt = 1;
const kept = 60;

interface Like {
  member: number;
  hour: number;
  distance: number;
}

const best: Like[] = Array.from({ length: kept }, () => ({ member: 0, hour: 0, distance: 0 }));
const weights = new Float64Array(kept);
const values = new Float64Array(kept);
const passedAt = new Int32Array(kept);
/** Ranks by value at the hour looked at; kept from hour to hour, where it is nearly sorted already. */
const order = new Int32Array(kept);

/**
 * @param seen Mean of the core in each hour from the start [°C]; null where nothing was measured.
 * @param hour The hour that has just ended.
 * @param now The core at its end [°C].
 * @param shallow Whether the bed is so thin that its core follows day and night.
 * @param quietH Hours since a hand was last on the pile: rises across it tell nothing, nor do members before it.
 */
export function forecastCore(
  band: ExpectedBand,
  seen: (hour: number) => number | null,
  hour: number,
  now: number,
  atMs: number,
  limitC: number,
  shallow = false,
  quietH: number = Number.POSITIVE_INFINITY,
): Forecast | null {
  const { members } = band;
  if (members === undefined) return null;
  const found = mostAlike(members.coreC, members.count, members.steps, seen, hour, now, shallow, quietH);
  if (found === 0) return null;
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
  const p10C: number[] = [];
  const p50C: number[] = [];
  const p90C: number[] = [];
  let over = 0;
  for (let ahead = 1; ahead <= forecastH; ahead += 1) {
    for (let rank = 0; rank < found; rank += 1) {
      const like = best[rank];
      if (like === undefined) continue;
      const from = like.member * members.steps + like.hour;
      const last = (like.member + 1) * members.steps - 1;
      const value = now + (members.coreC[Math.min(last, from + ahead)] ?? 0) - (members.coreC[from] ?? 0);
      values[rank] = value;
      if (value > limitC && passedAt[rank] === 0) {
        passedAt[rank] = ahead;
        if (ahead <= overWithinH) over += weights[rank] ?? 0;
      }
    }
    sortOrder(found);
    const low = quantile(found, 0.1);
    const high = quantile(found, 0.9);
    const bare = quantile(found, 0.5);
    const spread = (high - low) / 2.5631;
    // A foretold rise is drawn back towards none, the more the members disagree about it.
    const rise = bare - now;
    const trust = rise === 0 ? 0 : (mostTrust * rise * rise) / (rise * rise + doubt * spread * spread);
    const middle = now + trust * rise;
    const unknown = Math.hypot(
      1.2816 * (shallow ? 2 : 1) * unknownKPerRootH * Math.sqrt(ahead),
      unknownShare * (middle - now),
    );
    p50C.push(tenth(middle));
    p10C.push(tenth(middle - Math.hypot(bare - low, unknown)));
    p90C.push(tenth(middle + Math.hypot(high - bare, unknown)));
  }
  return { atMs, p10C, p50C, p90C, overLikelihood: Math.round(over * 100) / 100, overInH: medianPass(found) };
}

/** Insertion sort of `order` by `values`: from one hour to the next few places change. */
function sortOrder(found: number): void {
  for (let place = 1; place < found; place += 1) {
    const rank = order[place] ?? 0;
    const value = values[rank] ?? 0;
    let left = place - 1;
    while (left >= 0 && (values[order[left] ?? 0] ?? 0) > value) {
      order[left + 1] = order[left] ?? 0;
      left -= 1;
    }
    order[left + 1] = rank;
  }
}

/** Smallest value at which the weights, summed in the order of values, reach the share. */
function quantile(found: number, share: number): number {
  let sum = 0;
  for (let place = 0; place < found; place += 1) {
    const rank = order[place] ?? 0;
    sum += weights[rank] ?? 0;
    if (sum >= share) return values[rank] ?? 0;
  }
  return values[order[found - 1] ?? 0] ?? 0;
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

/** Fills `best` with the likest members and shifts, nearest first; returns how many. */
function mostAlike(
  coreC: Float32Array,
  count: number,
  steps: number,
  seen: (hour: number) => number | null,
  hour: number,
  now: number,
  shallow: boolean,
  quietH: number,
): number {
  const rise3 = quietH < 3 ? null : riseSeen(seen, hour, 3, now);
  const rise6 = quietH < 6 ? null : riseSeen(seen, hour, 6, now);
  const rise12 = quietH < 12 ? null : riseSeen(seen, hour, 12, now);
  const rise24 = quietH < 24 ? null : riseSeen(seen, hour, 24, now);
  let found = 0;
  let worst = Number.POSITIVE_INFINITY;
  for (const shift of shallow ? shallowShiftsH : shiftsH) {
    const at = hour + 1 + shift;
    if (at < 0 || at + forecastH >= steps || -shift >= quietH) continue;
    const shiftCost = (shift / shiftErrorH) ** 2;
    for (let member = 0; member < count; member += 1) {
      const from = member * steps;
      const level = coreC[from + at] ?? 0;
      let distance = shiftCost + ((level - now) / errorK.level) ** 2;
      if (distance >= worst) continue;
      if (rise3 !== null) distance += ((level - (coreC[from + Math.max(0, at - 3)] ?? 0) - rise3) / errorK.rise3) ** 2;
      if (rise6 !== null) distance += ((level - (coreC[from + Math.max(0, at - 6)] ?? 0) - rise6) / errorK.rise6) ** 2;
      if (distance >= worst) continue;
      if (rise12 !== null)
        distance += ((level - (coreC[from + Math.max(0, at - 12)] ?? 0) - rise12) / errorK.rise12) ** 2;
      if (rise24 !== null)
        distance += ((level - (coreC[from + Math.max(0, at - 24)] ?? 0) - rise24) / errorK.rise24) ** 2;
      if (distance >= worst) continue;
      found = insert(found, member, at, distance);
      if (found === kept) worst = best[kept - 1]?.distance ?? worst;
    }
  }
  return found;
}

/** Keeps `best` sorted by insertion; the list is short. */
function insert(found: number, member: number, hour: number, distance: number): number {
  const length = Math.min(kept, found + 1);
  let place = length - 1;
  const slot = best[place];
  if (slot === undefined) return found;
  for (
    let left = best[place - 1];
    place > 0 && left !== undefined && left.distance > distance;
    left = best[place - 1]
  ) {
    best[place] = left;
    place -= 1;
  }
  best[place] = slot;
  slot.member = member;
  slot.hour = hour;
  slot.distance = distance;
  return length;
}

/** Rise since `backH` hours before the end of the hour; the core at a whole hour lies between the means on either side. */
function riseSeen(seen: (hour: number) => number | null, hour: number, backH: number, now: number): number | null {
  const before = seen(Math.max(0, hour - backH));
  const after = seen(Math.max(0, hour - backH + 1));
  return before === null || after === null ? null : now - (before + after) / 2;
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}
