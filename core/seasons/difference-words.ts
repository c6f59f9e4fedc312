/**
 * A difference between two groups of batches in plain words. It never says that one thing made the other: groups of
 * batches differ in much at once.
 */
import type { Difference } from './difference.ts';

export interface MeasureSaying {
  /** E.g. "hours to 40 °C". */
  readonly name: string;
  /** A difference with its unit, without sign, e.g. "9 h". */
  readonly amount: (difference: number) => string;
}

export const noCause = 'That two groups differ does not say why: weather, hands and materials change together.';

/** Said once beside a list of many comparisons. */
export function chanceRemark(comparisons: number): string {
  if (comparisons < 2) return '';
  const expected = comparisons / 20;
  const how = expected < 1.5 ? 'one of them' : `about ${Math.round(expected)} of them`;
  return `${comparisons} measures are compared here, so ${how} may stand out by chance alone.`;
}

export function sayDifference(
  { counts, shift, interval }: Difference,
  { name, amount }: MeasureSaying,
  groups: readonly [string, string],
): string {
  const [one, other] = groups;
  if (shift === null) return `${capital(name)}: not known in ${counts[0] === 0 ? one : other}.`;
  if (interval === null) return `${capital(name)}: ${countsOf(counts)}: too few to tell.`;
  const [low, high] = interval;
  if (low <= 0 && high >= 0) {
    if (low === 0 && high === 0) return `${capital(name)}: the same in both (${countsIn(counts)}).`;
    return `${capital(name)}: no difference shows; anything from ${amount(-low)} lower to ${amount(high)} higher in ${one} fits what was measured (${countsIn(counts)}).`;
  }
  const [near, far] = low > 0 ? [low, high] : [-high, -low];
  const way = low > 0 ? 'higher' : 'lower';
  return `${capital(name)}: about ${amount(Math.abs(shift))} ${way} in ${one} than in ${other}, between ${amount(near)} and ${amount(far)} (95 in 100; ${countsIn(counts)}).`;
}

/** @example countsOf([3, 3]) // => "three batches each" */
function countsOf([one, other]: readonly [number, number]): string {
  return one === other
    ? `${countWord(one)} ${one === 1 ? 'batch' : 'batches'} each`
    : `${countWord(one)} and ${countWord(other)} batches`;
}

function countsIn([one, other]: readonly [number, number]): string {
  return one === other ? `${one} batches each` : `${one} and ${other} batches`;
}

const words = 'no one two three four five six seven eight nine ten eleven twelve'.split(' ');

function countWord(count: number): string {
  return words[count] ?? String(count);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
