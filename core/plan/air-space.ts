/**
 * Whether a wetted heap keeps enough air. It never counts settling: a heap that was trodden or rained on has less.
 */

import { message, paragraph } from '../../shared/messages/message.ts';
import { amount, sum } from '../../shared/sum.ts';
import { freeAirSpaceFrac } from '../physics/haug.ts';
import type { Notebook } from './notebook.ts';
import { freeAirSpaceFloor } from './plan-facts.ts';

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
  const freeAirSpace = freeAirSpaceFrac(dryDensityKgM3, moistureFrac, particleDensityKgM3);
  const floor = book.take(message('plan.taken.air-floor'), 'share', freeAirSpaceFloor);
  const wettestForAir = wettestForAirFrac(dryDensityKgM3, particleDensityKgM3, floor);
  if (freeAirSpace === 0) {
    book.remark('act', message('plan.air.mud'));
    return { freeAirSpace, wettestForAir };
  }
  writeAirSpace(book, dryDensityKgM3, particleDensityKgM3, moistureFrac, freeAirSpace);
  if (freeAirSpace < floor) {
    book.remark(
      'act',
      paragraph(
        message('plan.air.too-little', { airShare: freeAirSpace, floorShare: floor }),
        wettestForAir > 0.3 ? message('plan.air.stop-at', { wettestShare: wettestForAir }) : message('plan.air.loosen'),
      ),
    );
  }
  return { freeAirSpace, wettestForAir };
}

function writeAirSpace(
  { step }: Notebook,
  dryDensityKgM3: number,
  particleDensityKgM3: number,
  moistureFrac: number,
  freeAirSpace: number,
): void {
  const dry = amount('densityKgM3', dryDensityKgM3);
  const solids = step(
    message('plan.step.solid-share'),
    sum`${dry} ÷ ${amount('densityKgM3', particleDensityKgM3)}`,
    'share',
    dryDensityKgM3 / particleDensityKgM3,
  );
  const moist = amount('share', moistureFrac);
  const water = step(
    message('plan.step.water-share'),
    sum`${dry} × ${moist} ÷ (100 % − ${moist}) ÷ ${amount('densityKgM3', 1000)}`,
    'share',
    (dryDensityKgM3 * moistureFrac) / (1 - moistureFrac) / 1000,
  );
  const air = sum`100 % − ${amount('share', solids)} − ${amount('share', water)}`;
  step(message('plan.step.air-share'), air, 'share', freeAirSpace);
}
