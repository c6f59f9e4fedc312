/** Oxygen finds its way in by diffusion and draught, and is used up. */
import { type ChainNode, createChain, solveChain } from './chain.ts';
import { coverFacts } from './cover.ts';
import { oxygenFactor } from './factors.ts';
import { freshOxygenFrac, type Pile } from './pile.ts';
import type { LayerWork } from './work.ts';

/** Oxygen in a cubic metre of pure oxygen at 35 °C and 1 atm, ideal gas [kg m⁻³]. */
const oxygenKgM3 = 1.265;
/** Diffusion of oxygen over that of vapour: 2.1 / 2.5 (from memory). */
const oxygenOverVapour = 0.8;

const chain: ChainNode[] = createChain(20);

/**
 * One implicit step of  a dz dy/dt = diffusion + draught − want · y / (K + y),  with the want straightened so that
 * oxygen never falls below 0 and exactly what is taken up is what the microbes get.
 *
 * @param surfaceSM Resistance of the air film over the pile to a gas [s m⁻¹].
 */
export function breathe(pile: Pile, works: readonly LayerWork[], surfaceSM: number, stepS: number): void {
  let i = 0;
  for (const work of works) {
    const node = chain[i];
    i += 1;
    if (node === undefined) break;
    const { layer, above, below } = work;
    const holdM = work.freeAirFrac * work.thicknessM;
    const toAbove = above === undefined ? topMS(pile, work, surfaceSM) : betweenMS(above, work);
    const toBelow = below === undefined ? 0 : betweenMS(work, below);
    const fromBelowMS = below?.upAirMS ?? 0;
    // The microbes get what the oxygen half a step ahead allows; written as a share of the oxygen after the step.
    const aheadFrac = Math.max(0.5 * layer.oxygenFrac, layer.oxygenFrac + layer.oxygenDriftS * stepS);
    work.oxygenShare = oxygenFactor((layer.oxygenFrac + aheadFrac) / 2) / Math.max(1e-9, aheadFrac);
    const usedMS = (work.oxygenWantedKgM2S / oxygenKgM3) * work.oxygenShare;
    node.lower = -toAbove * stepS;
    node.upper = -(toBelow + fromBelowMS) * stepS;
    node.diagonal = holdM + (toAbove + toBelow + work.upAirMS + usedMS) * stepS;
    node.rhs = holdM * layer.oxygenFrac + work.sideAirMS * freshOxygenFrac * stepS;
    if (above === undefined) node.rhs += toAbove * freshOxygenFrac * stepS;
  }
  solveChain(chain, works.length);
  i = 0;
  for (const work of works) {
    const node = chain[i];
    i += 1;
    if (node === undefined) break;
    const { layer } = work;
    work.oxygenShare *= node.value;
    layer.oxygenDriftS = (node.value - layer.oxygenFrac) / stepS;
    layer.oxygenFrac = node.value;
  }
}

function betweenMS(upper: LayerWork, lower: LayerWork): number {
  return oxygenOverVapour / (upper.thicknessM / 2 / upper.diffusionM2S + lower.thicknessM / 2 / lower.diffusionM2S);
}

function topMS(pile: Pile, top: LayerWork, surfaceSM: number): number {
  const massSM = top.thicknessM / 2 / (top.diffusionM2S * oxygenOverVapour);
  return 1 / (massSM + surfaceSM + coverFacts[pile.cover].gasSM);
}
