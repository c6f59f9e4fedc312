import type { MeasureKind } from './measure.ts';

/** Decimals to which buckets, a tape and a syringe are read, in the unit of the kind: common practice, no source. */
const readTo: Partial<Record<MeasureKind, number>> = { volumeL: 1, starterMl: 1, lengthM: 2, areaM2: 1, rateKgM2: 2 };

/** How many figures of an amount a person can measure out. @example figuresMeasured('volumeL', 7.984) // => 2, for 8.0 L */
export function figuresMeasured(kind: MeasureKind, value: number): number {
  const decimals = readTo[kind];
  if (decimals === undefined || value === 0) return 3;
  const whole = Math.floor(Math.log10(Math.abs(value))) + 1;
  return Math.min(3, Math.max(2, whole + decimals));
}
