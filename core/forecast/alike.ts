/**
 * The members of the ensemble that behaved as this pile did.
 *
 * Each member may run some hours early or late. It is weighed by how like it is to what was seen: its temperature now
 * and its rise over 3, 6, 12 and 24 hours, each against a stated error.
 */
import type { MemberCurves } from '../expect/band.ts';
import { type PileNow, riseSeen } from './pile-now.ts';

/**
 * How far a fitting member may be off [K]: its level, and its rise over 3, 6, 12, 24 h. The best published models miss a
 * curve by 2 to 5 °C (Mason 2006, second-hand); a rise over few hours is known better than a level. The shares of it are our own choice,
 * no source.
 */
const errorK = { level: 3, rise3: 0.2, rise6: 0.35, rise12: 0.8, rise24: 1.8 };
/** One over each of them, per hundredth of a degree. */
const perError = {
  level: 0.01 / errorK.level,
  rise3: 0.01 / errorK.rise3,
  rise6: 0.01 / errorK.rise6,
  rise12: 0.01 / errorK.rise12,
  rise24: 0.01 / errorK.rise24,
};
/**
 * Members may be this much early or late [h], at this cost each; the likest come first, so that most others are passed over soon; our own
 * choice, no source.
 */
const shiftsH: readonly number[] = [0, -1, 1, -3, 3, -5, 5, -8, 8, -12, 12, -18, 18];
const shiftErrorH = 14;
/** A shallow bed goes with the air: a member may be a day off, but not half a day [h]; our own choice, no source. */
const shallowShiftsH: readonly number[] = [0, -1, 1, -2, 2, -24, 24];
/** So many of the likest are asked; our own choice, no source. */
const kept = 60;

export interface Like {
  member: number;
  hour: number;
  distance: number;
}

/** The most that `likest` finds. */
export const mostAlike = kept;

/** The longest rise that is compared, and with the furthest shift how far back members are looked at [h]; our own choice, no source. */
const longestRiseH = 24;
export const lookedBackH = longestRiseH + 24;

/**
 * Fills `best` (of length `mostAlike`) with the likest members and shifts, nearest first; returns how many.
 * @param members Kept from `lookedBackH` before the hour or from the start: a shift that reaches before them is passed over.
 */
export function likest(best: Like[], members: MemberCurves, pile: PileNow, aheadH: number): number {
  const { coreCentiC, count, steps, firstHour } = members;
  const { hour, shallow, quietH } = pile;
  // In the members' own hundredths: this is most of what judging costs.
  const now = 100 * pile.nowC;
  const rise3 = centiRise(pile, 3);
  const rise6 = centiRise(pile, 6);
  const rise12 = centiRise(pile, 12);
  const rise24 = centiRise(pile, longestRiseH);
  let found = 0;
  let worst = Number.POSITIVE_INFINITY;
  for (const shift of shallow ? shallowShiftsH : shiftsH) {
    const at = hour + 1 + shift;
    if (at < 0 || at + aheadH >= firstHour + steps || -shift >= quietH) continue;
    const to24 = Math.max(0, at - longestRiseH);
    if (to24 < firstHour) continue;
    const to3 = Math.max(0, at - 3);
    const to6 = Math.max(0, at - 6);
    const to12 = Math.max(0, at - 12);
    const shiftCost = (shift / shiftErrorH) ** 2;
    if (shiftCost >= worst) continue;
    for (let member = 0, from = -firstHour; member < count; member += 1, from += steps) {
      const level = coreCentiC[from + at] ?? 0;
      let distance = shiftCost + ((level - now) * perError.level) ** 2;
      if (distance >= worst) continue;
      if (rise3 !== null) distance += ((level - (coreCentiC[from + to3] ?? 0) - rise3) * perError.rise3) ** 2;
      if (rise6 !== null) distance += ((level - (coreCentiC[from + to6] ?? 0) - rise6) * perError.rise6) ** 2;
      if (distance >= worst) continue;
      if (rise12 !== null) distance += ((level - (coreCentiC[from + to12] ?? 0) - rise12) * perError.rise12) ** 2;
      if (rise24 !== null) distance += ((level - (coreCentiC[from + to24] ?? 0) - rise24) * perError.rise24) ** 2;
      if (distance >= worst) continue;
      found = insert(best, found, member, at, distance);
      if (found === kept) worst = best[kept - 1]?.distance ?? worst;
    }
  }
  return found;
}

function centiRise(pile: PileNow, backH: number): number | null {
  const rise = riseSeen(pile, backH);
  return rise === null ? null : 100 * rise;
}

/** Keeps `best` sorted by insertion; the list is short. */
function insert(best: Like[], found: number, member: number, hour: number, distance: number): number {
  const length = Math.min(kept, found + 1);
  let index = length - 1;
  const slot = best[index];
  if (slot === undefined) return found;
  for (
    let left = best[index - 1];
    index > 0 && left !== undefined && left.distance > distance;
    left = best[index - 1]
  ) {
    best[index] = left;
    index -= 1;
  }
  best[index] = slot;
  slot.member = member;
  slot.hour = hour;
  slot.distance = distance;
  return length;
}
