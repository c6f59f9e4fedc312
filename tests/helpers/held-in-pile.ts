/** What a simulated pile holds, against which its books are proved. */
import type { Layer } from '../../simulator/model/layer.ts';
import { starch } from '../../simulator/model/stoichiometry.ts';

/** Water held [kg]. */
export function heldWaterKg(layers: readonly Layer[], footprintM2: number): number {
  return footprintM2 * layers.reduce((sum, layer) => sum + layer.waterKgM2, 0);
}

/** Carbon held in food and cells [kg]; the carbon of inert solids never moves and is left out. */
export function heldCarbonKg(layers: readonly Layer[], footprintM2: number): number {
  const matter = layers.reduce(
    (sum, l) => sum + l.readyKgM2 + l.slowKgM2 + l.mesophilesKgM2 + l.thermophilesKgM2 + l.deadKgM2,
    0,
  );
  return footprintM2 * matter * starch.carbonKgKg;
}
