/** A pile packs down under its own weight until somebody loosens it. */
import type { Pile } from './pile.ts';
import type { LayerWork } from './work.ts';

/** Time in which the packing closes 63 % of the way [s], and how far 100 kg/m² above packs it [-]: assumptions. */
const settleS = 2 * 86_400;
const packPer100KgM2 = 0.12;

/** Packing never squeezes out the last of the air: 1.45 times the loose density at most. */
export function settle(pile: Pile, works: readonly LayerWork[], stepS: number): void {
  const share = -Math.expm1(-stepS / settleS);
  let aboveKgM2 = 0;
  for (const { layer, dryKgM2 } of works) {
    const weight = dryKgM2 + layer.waterKgM2;
    const restKgM3 =
      pile.material.looseBulkKgM3 * Math.min(1.45, 1 + (packPer100KgM2 * (aboveKgM2 + weight / 2)) / 100);
    // Only ever down: what has packed does not rise by itself.
    if (restKgM3 > layer.bulkKgM3) layer.bulkKgM3 += (restKgM3 - layer.bulkKgM3) * share;
    aboveKgM2 += weight;
  }
}
