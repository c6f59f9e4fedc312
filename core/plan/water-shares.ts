/**
 * How much water a mass still needs, in a first portion and the rest. It never takes water out: what is too wet already
 * gets none, and is said to be so.
 */
import type { WaterAnswer } from '../../shared/contracts/plan.ts';
import { firstShare } from './ingredient-facts.ts';
import { massToReachKg } from './moisture-sums.ts';
import type { Fact, Notebook } from './notebook.ts';

export type WaterShares = Pick<WaterAnswer, 'verdict' | 'waterKg' | 'firstPortionKg' | 'restKg' | 'starterKg'>;

/** Above the target by less than this is as good as there: no squeeze tells half a per cent. */
const asGoodAs = 0.005;

const starterDensityKgL: Fact = {
  value: 1,
  origin: 'counted as water; at 20 °C a litre weighs 0.998 kg (from memory)',
};

export function workOutWater(
  book: Notebook,
  massKg: number,
  moistureFrac: number,
  targetFrac: number,
  starterL: number,
): WaterShares {
  const { say } = book;
  const starterKg =
    starterL === 0 ? 0 : starterL * book.take('weight of a litre of starter', 'massKg', starterDensityKgL);
  const neededKg = massToReachKg(massKg, moistureFrac, 1, targetFrac);
  if (neededKg === undefined || neededKg <= starterKg) {
    const moistureAfter = (massKg * moistureFrac + starterKg) / (massKg + starterKg);
    return {
      verdict: moistureAfter <= targetFrac + asGoodAs ? 'enough' : 'too-wet',
      waterKg: 0,
      firstPortionKg: 0,
      restKg: 0,
      starterKg,
    };
  }
  const target = say('share', targetFrac);
  book.step(
    'liquid to the target',
    `${say('massKg', massKg)} × (${target} − ${say('share', moistureFrac)}) ÷ (100 % − ${target})`,
    'massKg',
    neededKg,
  );
  const liquid = say('massKg', neededKg);
  const waterKg =
    starterKg === 0
      ? neededKg
      : book.step(
          'water besides the starter',
          `${liquid} − ${say('massKg', starterKg)}`,
          'massKg',
          neededKg - starterKg,
        );
  book.step('that water by volume', `${say('massKg', waterKg)} ÷ ${say('densityKgM3', 1000)}`, 'volumeL', waterKg);
  const share = book.take('share of the liquid to give first', 'share', firstShare);
  const firstLiquidKg = share * neededKg;
  // The starter goes in whole, whatever is left out.
  const firstPortionKg =
    starterKg >= firstLiquidKg
      ? 0
      : book.step(
          'water to give first',
          `${liquid} × ${say('share', share)}${starterKg === 0 ? '' : ` − ${say('massKg', starterKg)}`}`,
          'massKg',
          firstLiquidKg - starterKg,
        );
  return { verdict: 'add', waterKg, firstPortionKg, restKg: waterKg - firstPortionKg, starterKg };
}
