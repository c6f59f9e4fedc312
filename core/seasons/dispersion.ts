/**
 * How one measure varies over a grower's own batches. It never calls a value normal: a spread of few batches is narrow
 * by chance.
 */
import { quantileOfSorted } from '../expect/quantile.ts';

export interface Dispersion {
  readonly count: number;
  readonly low: number;
  readonly quarter: number;
  readonly middle: number;
  readonly threeQuarter: number;
  readonly high: number;
}

/** Quantiles straight between order statistics (type 7 of Hyndman and Fan 1996). Null of nothing. */
export function dispersionOf(values: readonly (number | null)[]): Dispersion | null {
  const sorted = presentIn(values).sort((a, b) => a - b);
  if (sorted.length === 0) return null;
  const at = (share: number) => quantileOfSorted(sorted, share);
  return {
    count: sorted.length,
    low: at(0),
    quarter: at(0.25),
    middle: at(0.5),
    threeQuarter: at(0.75),
    high: at(1),
  };
}

export function presentIn(values: readonly (number | null)[]): number[] {
  return values.filter((value): value is number => value !== null && Number.isFinite(value));
}
