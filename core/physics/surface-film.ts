/** How easily heat leaves a bed's skin under each cover, of a middling bed. */
import type { Cover } from '../../shared/contracts/domain/batch.ts';

/** Surface heat transfer [W m⁻² K⁻¹]: still shade about 5-10 (from memory), less under mats; a sheet holds an air layer. */
export const surfaceFilmWm2K: Readonly<Record<Cover, number>> = { open: 8, breathable: 3.5, closed: 2.5 };

/** Heat passed on to the ground, of a middling bed [W m⁻² K⁻¹]; our own choice, no source. */
export const groundFilmWm2K = 1.6;

/**
 * Of the heat that evaporation takes, the share that the bed gives; the air gives the rest [-]. It stands in the lumped model and in
 * the reckoning of work alike, so that both see the same bed. Our own choice, no source; no fit of it is recorded.
 */
export const evaporationHeatShare = 0.6;
