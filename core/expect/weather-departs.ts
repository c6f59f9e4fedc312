/** Whether the air has become other than an expected band took it to be. */
import type { ExpectedBand } from './band.ts';

/**
 * So far from the assumed air [K]. A band repeats the day before: a day that is a little warmer is within what members
 * allow for; a front or a sunny spell is not. Our own choice, no source.
 */
export const departedK = 4;

export function weatherDeparts({ airC }: ExpectedBand, meanC: number, hour: number): boolean {
  const from = airC?.[hour];
  const to = airC?.[hour + 1];
  return from !== undefined && to !== undefined && Math.abs(meanC - (from + to) / 2) >= departedK;
}
