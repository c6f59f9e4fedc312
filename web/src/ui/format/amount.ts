/** Sizes as people read them. */
import { noBreak } from './temperature.ts';

const grouped = new Intl.NumberFormat('en-GB');

/** @example sizeWords(47_329_280) // => "47 MB" */
export function sizeWords(bytes: number): string {
  const steps = [
    [1e12, 'TB'],
    [1e9, 'GB'],
    [1e6, 'MB'],
    [1e3, 'kB'],
  ] as const;
  const [step, unit] = steps.find(([least]) => bytes >= 0.9995 * least) ?? [1, 'bytes'];
  const value = bytes / step;
  return `${grouped.format(value < 9.95 && step > 1 ? Math.round(value * 10) / 10 : Math.round(value))}${noBreak}${unit}`;
}
