/** Eating, growing, withering and dying of heat, within one layer and one step. */
import { cardinalRate } from './cardinal-rate.ts';
import { freeAirFactor, moistureFactor, oxygenFactor } from './factors.ts';
import { type GroupKinetics, heatDeathPerS, type Kinetics } from './kinetics.ts';
import { waterHeatJKgK } from './layer.ts';
import type { Pile } from './pile.ts';
import { heatPerStarchJKg, starch } from './stoichiometry.ts';
import type { LayerWork } from './work.ts';

/** First half: how much would be grown and burnt in this step if oxygen were plentiful. */
export function wantFood(work: LayerWork, kinetics: Kinetics, stepS: number): void {
  const { layer, midC } = work;
  const { mesophiles, thermophiles, readyHalfFrac, yieldKgKg } = kinetics;
  work.dampShare = moistureFactor(work.moistureFrac);
  work.mesophileRate = cardinalRate(midC, mesophiles.temps);
  work.thermophileRate = cardinalRate(midC, thermophiles.temps);
  work.mesophileWitherPerS = witherPerS(midC, mesophiles);
  work.mesophileDeathPerS = heatDeathPerS(midC, mesophiles);
  work.thermophileLossPerS = witherPerS(midC, thermophiles) + heatDeathPerS(midC, thermophiles);
  const readyFrac = layer.readyKgM2 / work.dryKgM2;
  const plenty = (work.dampShare * freeAirFactor(work.freeAirFrac) * readyFrac) / (readyHalfFrac + readyFrac);
  const oxygenNow = oxygenFactor(layer.oxygenFrac);
  const mesoPerS = (plenty * mesophiles.growthPerH * work.mesophileRate) / 3600;
  const thermoPerS = (plenty * thermophiles.growthPerH * work.thermophileRate) / 3600;
  const mesoNet = mesoPerS * oxygenNow - work.mesophileWitherPerS - work.mesophileDeathPerS;
  const thermoNet = thermoPerS * oxygenNow - work.thermophileLossPerS;
  const mesoGrown = mesoPerS * layer.mesophilesKgM2 * meanOverStep(mesoNet, stepS);
  const thermoGrown = thermoPerS * layer.thermophilesKgM2 * meanOverStep(thermoNet, stepS);
  // No more can be eaten than is there.
  const eaten = (mesoGrown + thermoGrown) / yieldKgKg;
  const share = eaten > layer.readyKgM2 ? layer.readyKgM2 / eaten : 1;
  work.mesophileGrowthKgM2 = mesoGrown * share;
  work.thermophileGrowthKgM2 = thermoGrown * share;
  const burnt = (mesoGrown + thermoGrown) * share * (1 / yieldKgKg - 1);
  work.oxygenWantedKgM2S = (burnt * starch.oxygenKgKg) / stepS;
}

/** Second half: eats with the oxygen that came. */
export function eat(work: LayerWork, pile: Pile, stepS: number): void {
  const { layer } = work;
  const { kinetics, footprintM2, ledger } = pile;
  const { yieldKgKg } = kinetics;
  const mesoGrown = work.mesophileGrowthKgM2 * work.oxygenShare;
  const thermoGrown = work.thermophileGrowthKgM2 * work.oxygenShare;
  const eaten = (mesoGrown + thermoGrown) / yieldKgKg;
  const burnt = eaten - mesoGrown - thermoGrown;

  // Cells that wither become food again; wanted cells killed by heat are kept apart, and only then slowly eaten.
  const mesoMean = layer.mesophilesKgM2 + mesoGrown / 2;
  const thermoMean = layer.thermophilesKgM2 + thermoGrown / 2;
  const mesoWithered = mesoMean * lostShare(work.mesophileWitherPerS * stepS);
  const mesoKilled = (mesoMean - mesoWithered) * lostShare(work.mesophileDeathPerS * stepS);
  const thermoLost = thermoMean * lostShare(work.thermophileLossPerS * stepS);
  const deadEaten = layer.deadKgM2 * deadTurnoverPerS * stepS;

  const crowd = layer.mesophilesKgM2 * work.mesophileRate + layer.thermophilesKgM2 * work.thermophileRate;
  const room = layer.mesophilesKgM2 + layer.thermophilesKgM2 + kinetics.breakdownHalfFrac * work.dryKgM2;
  const breakdownPerS = ((kinetics.breakdownPerH / 3600) * work.dampShare * crowd) / room;
  const brokenDown = layer.slowKgM2 * breakdownPerS * work.oxygenShare * stepS;

  layer.readyKgM2 += brokenDown + mesoWithered + thermoLost + deadEaten - eaten;
  layer.slowKgM2 -= brokenDown;
  layer.mesophilesKgM2 += mesoGrown - mesoWithered - mesoKilled;
  layer.thermophilesKgM2 += thermoGrown - thermoLost;
  layer.deadKgM2 += mesoKilled - deadEaten;

  const waterMade = burnt * starch.waterKgKg;
  layer.waterKgM2 += waterMade;
  // Matter that turned from solid to water holds a little more heat at the same temperature, and gas takes some away.
  const matterJM2 = layer.tempC * (waterMade * waterHeatJKgK - burnt * pile.material.dryHeatJKgK);
  work.heatInJM2 = burnt * heatPerStarchJKg + matterJM2;

  const burntKg = burnt * footprintM2;
  ledger.oxidationJ += burntKg * heatPerStarchJKg;
  ledger.carriedJ += matterJM2 * footprintM2;
  ledger.metabolicWaterKg += burntKg * starch.waterKgKg;
  ledger.burntKg += burntKg;
  ledger.oxygenKg += burntKg * starch.oxygenKgKg;
  ledger.carbonDioxideKg += burntKg * starch.carbonDioxideKgKg;
}

/** Killed cells are eaten up by the rest within days: 1 % an hour, an assumption. */
const deadTurnoverPerS = 0.01 / 3600;

/** Withering follows temperature loosely: a fifth of its speed in the cold, all of it at the best temperature and above. */
function witherPerS(tempC: number, group: GroupKinetics): number {
  const warmth = Math.min(1, Math.max(0.2, tempC / group.temps.optC));
  return (group.decayPerH / 3600) * warmth;
}

/** 1 − exp(−x), by its series where that is exact to rounding. */
function lostShare(x: number): number {
  return x < 1e-4 ? x * (1 - x / 2 + (x * x) / 6) : -Math.expm1(-x);
}

/** ∫ exp(g t) dt over a step, by its series: growth within a step is small, and where heat kills fast there is none. */
function meanOverStep(netPerS: number, stepS: number): number {
  const x = Math.max(-1, netPerS * stepS);
  return stepS * (1 + x / 2 + (x * x) / 6);
}
