/** Saturated vapour density, looked up, because the ensemble asks half a million times. */
import { vapourDensityKgM3 } from '../../shared/water.ts';

/** From the coldest that is reckoned with, in steps, to 100 °C [°C]: a straight line over half a degree is off by 0.03 % at most. */
const lowestC = -40;
const stepC = 0.5;
const rows = 281;
const table = new Float64Array(rows);
for (let row = 0; row < rows; row += 1) table[row] = vapourDensityKgM3(lowestC + row * stepC, 100);

export function saturatedVapourKgM3(tempC: number): number {
  const index = Math.min(rows - 1.0001, Math.max(0, (tempC - lowestC) / stepC));
  const left = Math.floor(index);
  const from = table[left] ?? 0;
  return from + (index - left) * ((table[left + 1] ?? from) - from);
}
