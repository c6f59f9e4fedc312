/**
 * How much water a mass still needs, in a first portion and the rest. It never takes water out: what is too wet already
 * gets none, and is said to be so.
 */
import type { WaterAnswer } from '../../shared/contracts/plan.ts';
import { message } from '../../shared/messages/message.ts';
import { amount, sum } from '../../shared/sum.ts';
import { massToReachKg } from './moisture-sums.ts';
import type { Notebook } from './notebook.ts';
import { firstShare, starterKgL } from './plan-facts.ts';

export type WaterShares = Pick<WaterAnswer, 'verdict' | 'waterKg' | 'firstPortionKg' | 'restKg' | 'starterKg'>;

/** Above the target by less than this is as good as there: no squeeze tells half a per cent, wet basis [-]; our own choice, no source. */
export const asGoodAsFrac = 0.005;

export function workOutWater(
  book: Notebook,
  massKg: number,
  moistureFrac: number,
  targetFrac: number,
  starterL: number,
): WaterShares {
  const starterKg =
    starterL === 0 ? 0 : starterL * book.take(message('plan.taken.starter-weight'), 'massKg', starterKgL);
  const neededKg = massToReachKg(massKg, moistureFrac, 1, targetFrac);
  if (neededKg === undefined || neededKg <= starterKg) {
    const moistureAfter = (massKg * moistureFrac + starterKg) / (massKg + starterKg);
    return {
      verdict: moistureAfter <= targetFrac + asGoodAsFrac ? 'enough' : 'too-wet',
      waterKg: 0,
      firstPortionKg: 0,
      restKg: 0,
      starterKg,
    };
  }
  const target = amount('share', targetFrac);
  book.step(
    message('plan.step.liquid'),
    sum`${amount('massKg', massKg)} × (${target} − ${amount('share', moistureFrac)}) ÷ (100 % − ${target})`,
    'massKg',
    neededKg,
  );
  const liquid = amount('massKg', neededKg);
  const starter = amount('massKg', starterKg);
  const waterKg =
    starterKg === 0
      ? neededKg
      : book.step(message('plan.step.water-besides'), sum`${liquid} − ${starter}`, 'massKg', neededKg - starterKg);
  const byVolume = sum`${amount('massKg', waterKg)} ÷ ${amount('densityKgM3', 1000)}`;
  book.step(message('plan.step.water-volume'), byVolume, 'volumeL', waterKg);
  const share = book.take(message('plan.taken.first-share'), 'share', firstShare);
  const firstLiquid = sum`${liquid} × ${amount('share', share)}`;
  const firstLiquidKg = share * neededKg;
  // The starter goes in whole, whatever is left out.
  const firstPortionKg =
    starterKg >= firstLiquidKg
      ? 0
      : book.step(
          message('plan.step.water-first'),
          starterKg === 0 ? firstLiquid : sum`${firstLiquid} − ${starter}`,
          'massKg',
          firstLiquidKg - starterKg,
        );
  return { verdict: 'add', waterKg, firstPortionKg, restKg: waterKg - firstPortionKg, starterKg };
}
