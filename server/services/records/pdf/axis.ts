/** Round numbers for an axis. */
import { msPerHour } from '../../../../shared/units.ts';

/**
 * Round steps that cover [least, most], at most about `wanted` of them.
 * @example niceSteps(18, 62, 6) // => [10, 20, 30, 40, 50, 60, 70]
 */
export function niceSteps(least: number, most: number, wanted: number): number[] {
  const span = Math.max(most - least, 1e-9);
  const rough = span / wanted;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((times) => times * power >= rough) ?? 10) * power;
  const first = Math.floor(least / step);
  const last = Math.ceil(most / step);
  return Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step);
}

const timeStepsMs = [1, 2, 3, 6, 12, 24, 48, 96, 168, 336, 720, 2160, 8760].map((hours) => hours * msPerHour);

/** Times on round steps from the start, at most `most` of them. */
export function timeSteps(fromMs: number, toMs: number, most: number): number[] {
  const step = timeStepsMs.find((one) => (toMs - fromMs) / one <= most) ?? (timeStepsMs.at(-1) as number);
  return Array.from({ length: Math.floor((toMs - fromMs) / step) + 1 }, (_, i) => fromMs + i * step);
}
