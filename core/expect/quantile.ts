/** Quantile by straight interpolation between order statistics; of nothing it is NaN. */
export function quantileOfSorted(sorted: ArrayLike<number>, share: number): number {
  const index = share * (sorted.length - 1);
  const left = Math.floor(index);
  const from = sorted[left] ?? Number.NaN;
  const to = sorted[Math.min(sorted.length - 1, left + 1)] ?? from;
  return from + (index - left) * (to - from);
}
