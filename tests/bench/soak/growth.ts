/**
 * How fast something grows: the median of the slopes of all pairs of values at equal steps, so that a few odd ones do not
 * decide, and the range that holds the true slope in 95 of 100 such series.
 *
 * @see H. Theil, "A rank-invariant method of linear and polynomial regression analysis," 1950, and P. K. Sen, "Estimates of
 *   the regression coefficient based on Kendall's tau," J. Am. Stat. Assoc., vol. 63, 1968; both as SciPy’s `theilslopes` cites them.
 */
export interface Growth {
  /** Per step; NaN with fewer than two values. */
  readonly perStep: number;
  readonly fromPerStep: number;
  readonly toPerStep: number;
}

/** Of the normal distribution: 95 % lie within. */
const z95 = 1.96;

/**
 * The slope of Theil and Sen.
 *
 *   b = median( (y_j − y_i) / (j − i) ), i < j;   Var(S) = n (n − 1) (2 n + 5) / 18                 (1)
 *
 * The range ends at the slopes of rank (N ∓ 1.96 √Var(S)) / 2 of all N, for values that do not hang together.
 *
 * @param values Oldest first. Length n; each counts for itself, so minutes that follow each other closely make the range
 *   narrower than it is. Values that are the same count as different ones, which makes it wider by little.
 *
 * @example
 * robustGrowth([1, 2, 3, 40, 5]).perStep // => 1
 */
export function robustGrowth(values: readonly number[]): Growth {
  const n = values.length;
  const slopes = values
    .flatMap((from, i) => values.slice(i + 1).map((to, ahead) => (to - from) / (ahead + 1)))
    .sort((a, b) => a - b);
  const half = z95 * Math.sqrt((n * (n - 1) * (2 * n + 5)) / 18);
  const at = (rank: number) => slopes[Math.min(slopes.length - 1, Math.max(0, Math.round(rank)))] ?? Number.NaN;
  const middle = (slopes.length - 1) / 2;
  return {
    perStep: (at(Math.floor(middle)) + at(Math.ceil(middle))) / 2,
    fromPerStep: at((slopes.length - half) / 2 - 1),
    toPerStep: at((slopes.length + half) / 2),
  };
}
