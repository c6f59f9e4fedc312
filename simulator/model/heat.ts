/** Heat moves between layers, into the soil and through skin and sides. */
import { type ChainNode, createChain, solveChain } from './chain.ts';
import { heatCapacityJM2K } from './layer.ts';
import type { Pile } from './pile.ts';
import type { Skin } from './surface.ts';
import type { LayerWork } from './work.ts';

/** Soil below the pile: thickness [m] and heat of moist soil (common value, from memory). */
const soilM = [0.05, 0.15, 0.4] as const;
const soilJM3K = 2.0e6;
/** Film on the sides of the pile [W m⁻² K⁻¹]. */
const sideFilmWM2K = 8;

const chain: ChainNode[] = createChain(20 + soilM.length);

/**
 * One step of conduction. Flows are weighted between the temperatures before and after: half and half
 * (Crank-Nicolson) where layers are thick, leaning to the end of the step where they are so thin that it would ring.
 */
export function conduct(pile: Pile, works: readonly LayerWork[], skin: Skin, airC: number, stepS: number): void {
  const stiffest = link(pile, works, skin, stepS);
  const laterS = stepS * Math.max(0.5, 1 - 1 / stiffest);
  const soonerS = stepS - laterS;

  let i = 0;
  for (const work of works) {
    const node = chain[i];
    i += 1;
    if (node === undefined) break;
    const { layer, above, below, linkUpWM2K: up, linkDownWM2K: down, linkSideWM2K: side } = work;
    const tempC = layer.tempC;
    const aboveC = above === undefined ? skin.balanceC : above.layer.tempC;
    const belowC = below === undefined ? pile.groundC[0] : below.layer.tempC;
    const gainedWM2 = up * (aboveC - tempC) + down * (belowC - tempC) + side * (airC - tempC);
    node.lower = -laterS * up;
    node.upper = -laterS * down;
    node.diagonal = heatCapacityJM2K(layer, pile.material) + laterS * (up + down + side);
    node.rhs = work.capacityJM2K * tempC + work.heatInJM2 + soonerS * gainedWM2 + laterS * side * airC;
    if (above === undefined) node.rhs += laterS * up * skin.balanceC;
  }
  const top = works[0];
  const base = works[works.length - 1];
  if (top === undefined || base === undefined) return;
  const groundBeforeC = pile.groundC[0];
  linkSoil(pile, works.length, base, soonerS, laterS);
  solveChain(chain, works.length + soilM.length);

  i = 0;
  for (const work of works) {
    const { layer } = work;
    const afterC = chain[i]?.value ?? layer.tempC;
    i += 1;
    work.meanC = (soonerS * layer.tempC + laterS * afterC) / stepS;
    work.heldJM2 = heatCapacityJM2K(layer, pile.material) * afterC;
    layer.driftKS = (afterC - layer.tempC) / stepS;
    layer.tempC = afterC;
    pile.ledger.sidesJ += work.linkSideWM2K * (airC - work.meanC) * stepS * pile.footprintM2;
  }
  for (let k = 0; k < soilM.length; k += 1) pile.groundC[k] = chain[works.length + k]?.value ?? pile.deepGroundC;
  const groundMeanC = (soonerS * groundBeforeC + laterS * pile.groundC[0]) / stepS;
  pile.ledger.surfaceJ -= skin.leaveWM2K * (top.meanC - skin.balanceC) * stepS * pile.footprintM2;
  pile.ledger.groundJ -= base.linkDownWM2K * (base.meanC - groundMeanC) * stepS * pile.footprintM2;
}

/** Sets the ways for heat of every layer. @returns How often the stiffest layer could empty itself in a step [-]. */
function link(pile: Pile, works: readonly LayerWork[], skin: Skin, stepS: number): number {
  const widthM = Math.sqrt(pile.footprintM2);
  // The middle of a pile loses heat sideways through half its width; 2.5 stands for the spreading of the flow (assumption).
  const perimeterM2M3 = 4 / widthM;
  let stiffest = 0;
  for (const work of works) {
    const { above, below, thicknessM } = work;
    const conductivity = work.conductivityWmK + work.vapourConductivityWmK;
    const sideWM2K = 1 / (1 / sideFilmWM2K + widthM / (2.5 * 2 * conductivity));
    work.linkUpWM2K = above === undefined ? skin.leaveWM2K : above.linkDownWM2K;
    work.linkDownWM2K =
      below === undefined
        ? 1 / (thicknessM / 2 / conductivity + soilM[0] / 2 / pile.groundWmK)
        : 1 /
          (thicknessM / 2 / conductivity +
            below.thicknessM / 2 / (below.conductivityWmK + below.vapourConductivityWmK));
    work.linkSideWM2K = sideWM2K * perimeterM2M3 * thicknessM;
    const ways = work.linkUpWM2K + work.linkDownWM2K + work.linkSideWM2K;
    stiffest = Math.max(stiffest, (ways * stepS) / work.capacityJM2K);
  }
  return stiffest;
}

function linkSoil(pile: Pile, first: number, base: LayerWork, soonerS: number, laterS: number): void {
  let aboveC = base.layer.tempC;
  let up = base.linkDownWM2K;
  for (let k = 0; k < soilM.length; k += 1) {
    const node = chain[first + k];
    const thisM = soilM[k];
    const hereC = pile.groundC[k];
    if (node === undefined || thisM === undefined || hereC === undefined) return;
    const nextM = soilM[k + 1];
    const belowC = pile.groundC[k + 1] ?? pile.deepGroundC;
    const down = pile.groundWmK / (nextM === undefined ? thisM / 2 + 0.3 : (thisM + nextM) / 2);
    const capacity = soilJM3K * thisM;
    node.lower = -laterS * up;
    node.upper = -laterS * down;
    node.diagonal = capacity + laterS * (up + down);
    node.rhs = capacity * hereC + soonerS * (up * (aboveC - hereC) + down * (belowC - hereC));
    if (nextM === undefined) node.rhs += laterS * down * pile.deepGroundC;
    aboveC = hereC;
    up = down;
  }
}
