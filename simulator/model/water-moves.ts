/** Water moves as vapour, by suction, by gravity, and in and out of the pile. */
import { latentHeatJKg } from '../../shared/water.ts';
import type { Air } from './air.ts';
import { coverFacts } from './cover.ts';
import { heatCapacityJM2K, waterHeatJKgK } from './layer.ts';
import type { Pile } from './pile.ts';
import type { Skin } from './surface.ts';
import type { LayerWork } from './work.ts';

/** How fast damp spreads through wet bran by suction [m² s⁻¹]: assumption, days for a hand's breadth. */
const suctionM2S = 1e-8;
/** Share of the water above what the mass can hold that drains in an hour [-]: assumption. */
const drainPerH = 0.5;

export function moveWater(pile: Pile, works: readonly LayerWork[], skin: Skin, air: Air, stepS: number): void {
  const { ledger, footprintM2, material } = pile;
  for (const work of works) {
    if (work.below === undefined) continue;
    pass(work, work.below, vapourDown(work, work.below, stepS) + suctionDown(work, work.below, stepS));
  }

  const top = works[0];
  const base = works[works.length - 1];
  if (top === undefined || base === undefined) return;
  // The skin can give off no more than the top layer holds.
  const evaporated = Math.min(skin.evaporationKgM2S * stepS, 0.5 * top.layer.waterKgM2);
  ledger.carriedJ += give(top, -evaporated, top.layer.tempC) * footprintM2;
  ledger.surfaceEvaporatedKg += evaporated * footprintM2;

  const rained = (air.rainMmH * coverFacts[pile.cover].rainShare * stepS) / 3600;
  if (rained > 0) {
    ledger.carriedJ += give(top, rained, air.tempC) * footprintM2;
    ledger.rainKg += rained * footprintM2;
  }

  const drainShare = -Math.expm1((-drainPerH * stepS) / 3600);
  for (const work of works) {
    const surplus = work.layer.waterKgM2 - material.holdingDryBasis * work.dryKgM2;
    if (surplus <= 0) continue;
    const drained = surplus * drainShare;
    if (work.below !== undefined) pass(work, work.below, drained);
    else {
      ledger.carriedJ += give(work, -drained, work.layer.tempC) * footprintM2;
      ledger.drainedKg += drained * footprintM2;
    }
  }
  for (const work of works) {
    const { layer } = work;
    layer.tempC = work.heldJM2 / heatCapacityJM2K(layer, material);
  }
}

/** Vapour that went down while its latent heat was conducted in heat.ts; negative when it went up [kg m⁻²]. */
function vapourDown(upper: LayerWork, lower: LayerWork, stepS: number): number {
  const ofUpper = upper.vapourConductivityWmK / (upper.conductivityWmK + upper.vapourConductivityWmK);
  const ofLower = lower.vapourConductivityWmK / (lower.conductivityWmK + lower.vapourConductivityWmK);
  const heatJM2 = upper.linkDownWM2K * (upper.meanC - lower.meanC) * stepS * 0.5 * (ofUpper + ofLower);
  return heatJM2 / latentHeatJKg((upper.midC + lower.midC) / 2);
}

function suctionDown(upper: LayerWork, lower: LayerWork, stepS: number): number {
  const distanceM = (upper.thicknessM + lower.thicknessM) / 2;
  const wetter = upper.layer.waterKgM2 / upper.thicknessM - lower.layer.waterKgM2 / lower.thicknessM;
  // Never more than would even the two out.
  const share = Math.min(0.25, (suctionM2S * stepS) / (distanceM * distanceM));
  return wetter * distanceM * share;
}

function pass(upper: LayerWork, lower: LayerWork, downKgM2: number): void {
  const from = downKgM2 > 0 ? upper : lower;
  const carriedJM2 = downKgM2 * waterHeatJKgK * from.layer.tempC;
  upper.layer.waterKgM2 -= downKgM2;
  lower.layer.waterKgM2 += downKgM2;
  upper.heldJM2 -= carriedJM2;
  lower.heldJM2 += carriedJM2;
}

/** @returns Heat that came with the water [J m⁻²]. */
function give(work: LayerWork, kgM2: number, tempC: number): number {
  const carriedJM2 = kgM2 * waterHeatJKgK * tempC;
  work.layer.waterKgM2 += kgM2;
  work.heldJM2 += carriedJM2;
  return carriedJM2;
}
