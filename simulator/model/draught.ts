/** Warm air rises through the pile and draws fresh air in at its foot. */
import { coverFacts } from './cover.ts';
import { latentHeatZeroJKg, vapourHeatJKgK } from './layer.ts';
import type { Pile } from './pile.ts';
import type { AirAtPile } from './shelter.ts';
import type { LayerWork } from './work.ts';

const airHeatJKgK = 1006;
const airKgM3 = 1.2;
const airViscosityPaS = 1.9e-5;
const gravityMS2 = 9.81;

/**
 * Speed of the air that leaves the top, from Darcy's law over the whole depth:  v = Σ Δρ g dz / Σ (μ dz / K).
 *
 * Permeability of a layer after Kozeny and Carman: K = d² a³ / (180 (1 − a)²), a the free air space.
 * Air must first find its way in from the sides: a wide low bed draws less than a narrow one (assumption).
 */
export function draw(pile: Pile, works: readonly LayerWork[], air: AirAtPile): void {
  const d = pile.material.particleM;
  const airVapourKgM3 = air.vapourKgM3;
  let liftPa = 0;
  let resistancePaSM = 0;
  let depthM = 0;
  for (const { midC, vapourKgM3, thicknessM, freeAirFrac: a } of works) {
    // Warm air is lighter, and so is damp air (vapour weighs 0.62 of the air it replaces).
    const lighterKgM3 = airKgM3 * ((midC - air.tempC) / (midC + 273.15)) + 0.61 * (vapourKgM3 - airVapourKgM3);
    liftPa += lighterKgM3 * gravityMS2 * thicknessM;
    resistancePaSM += (airViscosityPaS * thicknessM * 180 * (1 - a) * (1 - a)) / (d * d * a * a * a);
    depthM += thicknessM;
  }
  const halfWidthM = Math.sqrt(pile.footprintM2) / 2;
  const brokerAddress = depthM / (depthM + halfWidthM);
  const speedMS = Math.min(
    5e-3,
    Math.max(0, liftPa / resistancePaSM) * brokerAddress * coverFacts[pile.cover].draughtShare,
  );

  // Fresh air comes in through the lower half of the sides.
  const lowest = Math.floor(works.length / 2);
  const sideMS = speedMS / (works.length - lowest);
  let upMS = 0;
  for (let i = works.length - 1; i >= 0; i -= 1) {
    const work = works[i];
    if (work === undefined) continue;
    work.sideAirMS = i >= lowest ? sideMS : 0;
    upMS += work.sideAirMS;
    work.upAirMS = upMS;
  }
}

/** Heat and water that the drawn air carries from layer to layer and out, over one step. */
export function carry(pile: Pile, works: readonly LayerWork[], air: AirAtPile, stepS: number): void {
  const airVapourKgM3 = air.vapourKgM3;
  const sideJM3 = enthalpyJM3(air.tempC, airVapourKgM3);
  const { ledger, footprintM2 } = pile;
  for (const work of works) {
    const { below, upAirMS, sideAirMS, vapourKgM3, midC } = work;
    let inJ = sideAirMS * sideJM3;
    let inKg = sideAirMS * airVapourKgM3;
    if (below !== undefined) {
      inJ += below.upAirMS * enthalpyJM3(below.midC, below.vapourKgM3);
      inKg += below.upAirMS * below.vapourKgM3;
    }
    work.heatInJM2 += (inJ - upAirMS * enthalpyJM3(midC, vapourKgM3)) * stepS;
    work.draughtWaterKgM2 = (upAirMS * vapourKgM3 - inKg) * stepS;
    work.layer.waterKgM2 -= work.draughtWaterKgM2;
    ledger.draughtEvaporatedKg += work.draughtWaterKgM2 * footprintM2;
    ledger.draughtJ += sideAirMS * sideJM3 * stepS * footprintM2;
  }
  const top = works[0];
  if (top !== undefined) {
    ledger.draughtJ -= top.upAirMS * enthalpyJM3(top.midC, top.vapourKgM3) * stepS * footprintM2;
  }
}

/** Heat of a cubic metre of damp air above dry air and liquid water at 0 °C [J m⁻³]. */
function enthalpyJM3(tempC: number, vapourKgM3: number): number {
  return airKgM3 * airHeatJKgK * tempC + vapourKgM3 * (latentHeatZeroJKg + vapourHeatJKgK * tempC);
}
