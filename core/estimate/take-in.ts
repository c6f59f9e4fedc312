/**
 * Waterings, rain, squeezes and weighed samples taken into the estimate, each in the order of its own time: a handful that
 * crumbled before the can came says nothing of the bed after it.
 */

import { clockAheadMs } from '../../shared/clock-ahead.ts';
import type { Act } from '../../shared/contracts/domain/batch.ts';
import { msPerHour } from '../../shared/units.ts';
import { bedAt } from '../profiles/bed.ts';
import type { Noted } from '../profiles/noted.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';
import { correctBySample, sampleWater } from './correct-water.ts';
import { followDry, rainGiven, unwatchedSdPerH, type WaterState, waterGiven } from './follow-water.ts';

/**
 * Takes in what was done and noted up to `untilMs` and not taken in before.
 *
 * @param watchedMs From then on no hour is closed yet: whole hours since count as unwatched.
 * @returns Up to when such hours are counted.
 */
export function takeInHands(water: WaterState, setup: PileSetup, untilMs: number, watchedMs: number): number {
  const { acts, noted = [] } = setup;
  let countedMs = watchedMs;
  for (;;) {
    const act = due(acts[water.actsDone], untilMs);
    const note = due(noted[water.notedDone], untilMs);
    if (note !== undefined && (act === undefined || note.atMs <= act.atMs)) {
      water.notedDone += 1;
      const openH = wholeHours(note.atMs - countedMs);
      countedMs += openH * msPerHour;
      water.unwatchedH += openH;
      takeInNote(water, setup, note);
    } else if (act !== undefined) {
      water.actsDone += 1;
      takeInAct(water, setup, act);
    } else return countedMs;
  }
}

/** The estimate as it stands at an instant: what the last closed hour left, and all that was done and noted since. */
export function waterNow(laid: Readonly<WaterState>, hoursDone: number, setup: PileSetup, nowMs: number): WaterState {
  const closedMs = setup.startedAtMs + hoursDone * msPerHour;
  const untilMs = nowMs + clockAheadMs;
  // Field by field: spread by a rest it took a quarter of the time of every look (`bench replay`).
  const { waterKgKg, waterSd, dry, notedDone, actsDone, unwatchedH } = laid;
  const water = { waterKgKg, waterSd, dry, notedDone, actsDone, unwatchedH };
  const countedMs = takeInHands(water, setup, untilMs, closedMs);
  if (water.actsDone > actsDone || water.notedDone > notedDone) followDry(water, setup.limits);
  water.unwatchedH += wholeHours(nowMs - countedMs);
  widen(water, setup, nowMs);
  return water;
}

/** One more hour is closed in which nobody measured the core. */
export function countUnwatched(water: WaterState): void {
  water.unwatchedH += 1;
}

const wholeHours = (ms: number): number => Math.max(0, Math.floor(ms / msPerHour));

function due<T extends Act | Noted>(one: T | undefined, untilMs: number): T | undefined {
  return one !== undefined && one.atMs <= untilMs ? one : undefined;
}

function takeInAct(water: WaterState, setup: PileSetup, act: Act): void {
  const { recipe, limits } = setup;
  if (act.kind === 'watered') waterGiven(water, recipe, limits, act.amountL);
  if (act.kind === 'rained') rainGiven(water, recipe, limits, bedAt(setup, act.atMs), act.rainMm);
}

/** What was not watched before a sample is doubted before it is weighed against it. */
function takeInNote(water: WaterState, setup: PileSetup, { what, atMs }: Noted): void {
  const sample = sampleWater(what, setup.recipe);
  if (sample === null) return;
  widen(water, setup, atMs);
  correctBySample(water, sample);
}

/** Adds the doubt of the hours in which nobody measured the core. */
function widen(water: WaterState, setup: PileSetup, atMs: number): void {
  if (water.unwatchedH === 0) return;
  const { recipe, limits } = setup;
  water.waterSd += water.unwatchedH * unwatchedSdPerH(water.waterKgKg, recipe, limits, bedAt(setup, atMs));
  water.unwatchedH = 0;
}
