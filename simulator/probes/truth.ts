/** What is really so at the place of a probe. */
import type { Position } from '../../shared/names.ts';
import type { Air } from '../model/air.ts';
import { waterActivity } from '../model/factors.ts';
import { dryKgM2, thicknessM } from '../model/layer.ts';
import { freshOxygenFrac, type Pile, pileDepthM } from '../model/pile.ts';

export interface Truth {
  readonly tempC: number;
  readonly rhPct: number;
  /** Water by volume [%]. */
  readonly moisturePct: number;
  readonly co2Ppm: number;
}

/** Share of the depth, from the top, at which a probe of each position is put; top and base at most 5 cm in. */
function defaultDepthM(position: Position, pileM: number): number {
  if (position === 'top') return Math.min(0.05, pileM / 4);
  if (position === 'base') return pileM - Math.min(0.05, pileM / 4);
  return pileM / 2;
}

/** @param depthM Below the surface [m]; by position when left out. */
export function truthAt(pile: Pile, air: Air, position: Position, depthM?: number): Truth {
  const outdoors: Truth = { tempC: air.tempC, rhPct: air.rhPct, moisturePct: 0, co2Ppm: 420 };
  if (position === 'air') return outdoors;
  const pileM = pileDepthM(pile);
  const wantedM = Math.min(depthM ?? defaultDepthM(position, pileM), pileM);
  const inside = between(pile, wantedM);
  // The edge is half way between the middle and the air (assumption): the layers know no width.
  return position === 'edge' ? mixed(inside, outdoors, 0.5) : inside;
}

/** On a straight line between the middles of two layers, or a layer and the skin or soil. */
function between(pile: Pile, depthM: number): Truth {
  let upperM = 0;
  let upperC = pile.surfaceC;
  let topM = 0;
  let chosen = pile.layers[0];
  let tempC = upperC;
  let found = false;
  for (const layer of pile.layers) {
    const thick = thicknessM(layer);
    const middleM = topM + thick / 2;
    if (!found && depthM <= middleM) {
      tempC = onLine(depthM, upperM, upperC, middleM, layer.tempC);
      found = true;
    }
    if (depthM >= topM) chosen = layer;
    topM += thick;
    upperM = middleM;
    upperC = layer.tempC;
  }
  if (!found) tempC = onLine(depthM, upperM, upperC, topM + 0.025, pile.groundC[0]);
  if (chosen === undefined) return { tempC, rhPct: 100, moisturePct: 0, co2Ppm: 420 };
  return {
    tempC,
    rhPct: 100 * waterActivity(chosen.tempC, chosen.waterKgM2 / dryKgM2(chosen)),
    moisturePct: (chosen.waterKgM2 / thicknessM(chosen)) * 0.1,
    // A mole of carbon dioxide for a mole of oxygen.
    co2Ppm: 420 + Math.max(0, freshOxygenFrac - chosen.oxygenFrac) * 1e6,
  };
}

function onLine(x: number, x0: number, y0: number, x1: number, y1: number): number {
  return x1 > x0 ? y0 + ((y1 - y0) * (x - x0)) / (x1 - x0) : y1;
}

/** Between two truths: `share` 0 is the first, 1 the second. */
export function mixed(a: Truth, b: Truth, share: number): Truth {
  const mix = (key: keyof Truth) => a[key] + (b[key] - a[key]) * share;
  return { tempC: mix('tempC'), rhPct: mix('rhPct'), moisturePct: mix('moisturePct'), co2Ppm: mix('co2Ppm') };
}
