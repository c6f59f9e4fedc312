/** How easily heat leaves a bed's skin under each cover, of a middling bed. */
import type { Cover } from '../../shared/contracts/domain/batch.ts';

/** Surface heat transfer [W m⁻² K⁻¹]: still shade about 5-10 (from memory), less under mats; a sheet holds an air layer. */
export const surfaceFilmWm2K: Readonly<Record<Cover, number>> = { open: 8, breathable: 3.5, closed: 2.5 };
