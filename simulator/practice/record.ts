/** What was really so, hour by hour, in a practice run. */
import type { Air } from '../model/air.ts';
import { type PilePicture, pictureOf } from '../model/picture.ts';
import type { Pile } from '../model/pile.ts';

export interface TruthRow extends PilePicture {
  readonly afterH: number;
  readonly airC: number;
  /** Hottest layer [°C], and the middle one, where the core probe belongs. */
  readonly hottestC: number;
  readonly coreC: number;
  readonly leastOxygenFrac: number;
  /** Share of the work a batch has to do that is done [-]. */
  readonly workFrac: number;
}

/**
 * The batch's work is to burn what ready food it was laid with, less what of it becomes cells.
 *
 * @param readyAtStartKg Ready food as laid [kg].
 */
export function truthRow(pile: Pile, air: Air, afterH: number, readyAtStartKg: number): TruthRow {
  const picture = pictureOf(pile);
  const toBurnKg = readyAtStartKg * (1 - pile.kinetics.yieldKgKg);
  return {
    ...picture,
    afterH,
    airC: air.tempC,
    hottestC: Math.max(...picture.layers.map((layer) => layer.tempC)),
    coreC: picture.layers[Math.floor(picture.layers.length / 2)]?.tempC ?? Number.NaN,
    leastOxygenFrac: Math.min(...picture.layers.map((layer) => layer.oxygenFrac)),
    workFrac: toBurnKg > 0 ? Math.min(1, pile.ledger.burntKg / toBurnKg) : 1,
  };
}

export function readyFoodKg(pile: Pile): number {
  return pile.footprintM2 * pile.layers.reduce((sum, layer) => sum + layer.readyKgM2, 0);
}
