/** Arithmetic as it is shown: amounts and the signs between them, which no language changes. */
import type { MeasureKind } from './measure.ts';

/** In SI units, as its kind says. */
export interface Measured {
  readonly kind: MeasureKind;
  readonly value: number;
}

/** @example sum`${amount('massKg', 10)} × ${amount('share', 0.6)}` // => [10 kg, " × ", 60 %] */
export type Sum = readonly (string | Measured)[];

export const amount = (kind: MeasureKind, value: number): Measured => ({ kind, value });

export function sum(signs: TemplateStringsArray, ...parts: readonly (Measured | Sum)[]): Sum {
  const all = signs.flatMap((sign, index) => {
    const part = parts[index];
    return part === undefined ? [sign] : [sign, ...partsOf(part)];
  });
  return all.filter((part) => part !== '');
}

/** @example joined([one, other], ' + ') // => [one, " + ", other] */
export function joined(parts: readonly (Measured | Sum)[], sign: string): Sum {
  return parts.flatMap((part, index) => (index === 0 ? partsOf(part) : [sign, ...partsOf(part)]));
}

const partsOf = (part: Measured | Sum): Sum => ('kind' in part ? [part] : part);
