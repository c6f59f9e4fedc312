/**
 * Moves a pile on by one step. It never draws a random number or reads a clock: the same pile and weather always go the
 * same way.
 */
import type { Weather } from './air.ts';
import { carry, draw } from './draught.ts';
import { conduct } from './heat.ts';
import { eat, wantFood } from './metabolism.ts';
import { breathe } from './oxygen.ts';
import type { Pile } from './pile.ts';
import { settle } from './settle.ts';
import { airAtPile } from './shelter.ts';
import { balanceSkin } from './surface.ts';
import { moveWater } from './water-moves.ts';
import { examine } from './work.ts';

/** Longest step for which the error is known (halving it moves the core by less than 0.05 °C) [s]. */
export const longestStepS = 300;

/**
 * One step, second order in time: whatever drives the pile is taken half a step ahead, where the last step was going.
 *
 * @param pile Is changed in place.
 * @param stepS Length of the step [s], above 0, at most `longestStepS`.
 * @throws {RangeError} If `stepS` is out of range.
 */
export function stepPile(pile: Pile, weather: Weather, stepS: number): void {
  if (!(stepS > 0 && stepS <= longestStepS)) {
    throw new RangeError(
      `Cannot step a pile as stepS must be above 0 and at most ${longestStepS}: current value is ${stepS}`,
    );
  }
  const air = airAtPile(pile, weather(pile.atMs + stepS * 500), stepS);
  const works = examine(pile, stepS);
  const top = works[0];
  if (top === undefined) return;
  const skin = balanceSkin(pile, top, air);
  draw(pile, works, air);
  for (const work of works) wantFood(work, pile.kinetics, stepS);
  breathe(pile, works, skin.filmSM, stepS);
  for (const work of works) eat(work, pile, stepS);
  carry(pile, works, air, stepS);
  conduct(pile, works, skin, air.tempC, stepS);
  moveWater(pile, works, skin, air, stepS);
  settle(pile, works, stepS);
  pile.atMs += stepS * 1000;
}

/** Steps a pile up to an instant, in steps no longer than `stepS`. */
export function runPile(pile: Pile, weather: Weather, untilMs: number, stepS = longestStepS): void {
  while (pile.atMs < untilMs) stepPile(pile, weather, Math.min(stepS, (untilMs - pile.atMs) / 1000));
}
