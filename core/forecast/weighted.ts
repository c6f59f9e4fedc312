/** Mean, standard deviation and quantiles of weighted values, without allocating; the normal distribution. */

/** Insertion sort of `order` by `values`: from one hour to the next few places change. */
export function sortOrder(order: Int32Array, values: Float64Array, count: number): void {
  for (let index = 1; index < count; index += 1) {
    const rank = order[index] ?? 0;
    const value = values[rank] ?? 0;
    let left = index - 1;
    while (left >= 0 && (values[order[left] ?? 0] ?? 0) > value) {
      order[left + 1] = order[left] ?? 0;
      left -= 1;
    }
    order[left + 1] = rank;
  }
}

/** Smallest value at which the weights, summed in the order of values, reach the share. */
export function weightedQuantile(
  order: Int32Array,
  values: Float64Array,
  weights: Float64Array,
  count: number,
  share: number,
): number {
  let sum = 0;
  for (let index = 0; index < count; index += 1) {
    const rank = order[index] ?? 0;
    sum += weights[rank] ?? 0;
    if (sum >= share) return values[rank] ?? 0;
  }
  return values[order[count - 1] ?? 0] ?? 0;
}

export function weightedMean(values: Float64Array, weights: Float64Array, count: number): number {
  let mean = 0;
  for (let rank = 0; rank < count; rank += 1) mean += (weights[rank] ?? 0) * (values[rank] ?? 0);
  return mean;
}

/** Standard deviation around the weighted mean. */
export function weightedSd(values: Float64Array, weights: Float64Array, count: number): number {
  const mean = weightedMean(values, weights, count);
  let variance = 0;
  for (let rank = 0; rank < count; rank += 1) variance += (weights[rank] ?? 0) * ((values[rank] ?? 0) - mean) ** 2;
  return Math.sqrt(variance);
}

/**
 * Share of a normal distribution that lies below `z` standard deviations above its middle.
 *
 * @remarks Good to 1e-7: Abramowitz and Stegun, "Handbook of Mathematical Functions", 1964, formula 26.2.17, from memory.
 * @example normalShare(1.2816) // => 0.9000
 */
export function normalShare(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const above = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * series;
  return z > 0 ? 1 - above : above;
}
