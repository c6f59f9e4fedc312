/**
 * Whether a wetted heap keeps enough air. It never counts settling: a heap that was trodden or rained on has less.
 */
import { freeAirSpaceFrac } from '../physics/haug.ts';
import { freeAirSpaceFloor } from './ingredient-facts.ts';
import type { Notebook } from './notebook.ts';

/**
 * Moisture at which the free air space is down to a floor: the inverse of freeAirSpaceFrac.
 *
 *   w = 1 − ρ_dry / ρ_particle − a,   M = 1000 w / (1000 w + ρ_dry),   not below 0
 *
 * @param dryDensityKgM3 Dry mass per volume of the heap, ρ_dry [kg m⁻³], above 0.
 * @param floorFrac Least air-filled share of the volume, a [-].
 * @returns Moisture, wet basis, M [-].
 * @example wettestForAirFrac(290.4, 1500, 0.3) // => 0.636, fine rice bran
 */
export function wettestForAirFrac(dryDensityKgM3: number, particleDensityKgM3: number, floorFrac: number): number {
  const waterShare = Math.max(0, 1 - dryDensityKgM3 / particleDensityKgM3 - floorFrac);
  return (waterShare * 1000) / (waterShare * 1000 + dryDensityKgM3);
}

export interface AirSpace {
  readonly freeAirSpace: number;
  readonly wettestForAir: number;
}

/** Works out the air space, and warns below the floor. */
export function workOutAirSpace(
  book: Notebook,
  dryDensityKgM3: number,
  particleDensityKgM3: number,
  moistureFrac: number,
): AirSpace {
  const { tell } = book;
  const freeAirSpace = freeAirSpaceFrac(dryDensityKgM3, moistureFrac, particleDensityKgM3);
  const floor = book.take('least free air space', 'share', freeAirSpaceFloor);
  const wettestForAir = wettestForAirFrac(dryDensityKgM3, particleDensityKgM3, floor);
  if (freeAirSpace === 0) {
    book.remark(
      'act',
      'It would be mud without any air: solid and water alone fill the whole volume. Or the bulk density is not right.',
    );
    return { freeAirSpace, wettestForAir };
  }
  writeAirSpace(book, dryDensityKgM3, particleDensityKgM3, moistureFrac, freeAirSpace);
  if (freeAirSpace < floor) {
    const stop = wettestForAir > 0.3 ? `Stop at ${tell('share', wettestForAir)} moisture, or loosen` : 'Loosen';
    book.remark(
      'act',
      `Too little air: ${tell('share', freeAirSpace)} of the volume would be air, and ${tell('share', floor)} is usually taken as the least. ${stop} it with something coarse such as straw.`,
    );
  }
  return { freeAirSpace, wettestForAir };
}

function writeAirSpace(
  { step, say }: Notebook,
  dryDensityKgM3: number,
  particleDensityKgM3: number,
  moistureFrac: number,
  freeAirSpace: number,
): void {
  const dry = say('densityKgM3', dryDensityKgM3);
  const solids = step(
    'share of the volume that is solid',
    `${dry} ÷ ${say('densityKgM3', particleDensityKgM3)}`,
    'share',
    dryDensityKgM3 / particleDensityKgM3,
  );
  const moist = say('share', moistureFrac);
  const water = step(
    'share of the volume that is water',
    `${dry} × ${moist} ÷ (100 % − ${moist}) ÷ ${say('densityKgM3', 1000)}`,
    'share',
    (dryDensityKgM3 * moistureFrac) / (1 - moistureFrac) / 1000,
  );
  step('free air space', `100 % − ${say('share', solids)} − ${say('share', water)}`, 'share', freeAirSpace);
}
