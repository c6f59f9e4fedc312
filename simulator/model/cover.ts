/**
 * What a cover does to a pile.
 *
 * All figures are assumptions from the thickness and nature of the usual covers; no published set was found.
 */
import type { PileCover } from './pile.ts';

export interface CoverFacts {
  /** Against heat [m² K W⁻¹]: 2-3 cm of straw, mats or leaves at about 0.1 W/m K. */
  readonly heatM2KW: number;
  /** Against gases [s m⁻¹]: the same thickness of still air in its pores. */
  readonly gasSM: number;
  /** Share of the draught that still finds its way out [-]. */
  readonly draughtShare: number;
  /** Share of sun and of rain that still reaches the pile [-]. */
  readonly sunShare: number;
  readonly rainShare: number;
}

export const coverFacts: Record<PileCover, CoverFacts> = {
  open: { heatM2KW: 0, gasSM: 0, draughtShare: 1, sunShare: 1, rainShare: 1 },
  breathable: { heatM2KW: 0.25, gasSM: 600, draughtShare: 0.6, sunShare: 0.15, rainShare: 0.5 },
  closed: { heatM2KW: 0.05, gasSM: 20_000, draughtShare: 0.03, sunShare: 0.5, rainShare: 0 },
};
