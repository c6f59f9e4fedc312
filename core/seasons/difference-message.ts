/**
 * What can be said of a difference between two groups of batches. It never says that one thing made the other: groups of
 * batches differ in much at once.
 */
import { type Message, message } from '../../shared/messages/message.ts';
import type { Difference } from './difference.ts';

export interface MeasureSaying {
  /** E.g. "hours to 40 °C". */
  readonly name: Message;
  /** A difference with its unit, without sign, e.g. "9 h". */
  readonly amount: (difference: number) => Message;
}

export const noCause = message('season.no-cause');

/** Said once beside a list of many comparisons; null where they are too few. */
export function chanceRemark(comparisons: number): Message | null {
  if (comparisons < 2) return null;
  // One in twenty stands outside its interval by chance.
  const expectedCount = Math.max(1, Math.round(comparisons / 20));
  return message('season.chance', { comparedCount: comparisons, expectedCount });
}

export function sayDifference(
  { counts, shift, interval }: Difference,
  { name, amount }: MeasureSaying,
  groups: readonly [string, string],
): Message {
  const [oneName, otherName] = groups;
  const measure = { measureCapitalPart: name };
  if (shift === null) {
    return message('season.difference.not-known', { ...measure, groupName: counts[0] === 0 ? oneName : otherName });
  }
  if (interval === null) return message('season.difference.too-few', { ...measure, countsPart: fewOf(counts) });
  const [low, high] = interval;
  const counted = { ...measure, countsPart: countsOf(counts) };
  if (low === 0 && high === 0) return message('season.difference.same', counted);
  if (low <= 0 && high >= 0) {
    return message('season.difference.none-shows', {
      ...counted,
      lowerPart: amount(-low),
      higherPart: amount(high),
      oneName,
    });
  }
  const [near, far] = low > 0 ? [low, high] : [-high, -low];
  return message('season.difference.apart', {
    ...counted,
    shiftPart: amount(Math.abs(shift)),
    isHigher: low > 0,
    oneName,
    otherName,
    nearPart: amount(near),
    farPart: amount(far),
  });
}

/** In words: few enough to be said so. */
function fewOf([oneCount, otherCount]: Difference['counts']): Message {
  return oneCount === otherCount
    ? message('season.counts.few-each', { oneCount })
    : message('season.counts.few-both', { oneCount, otherCount });
}

function countsOf([oneCount, otherCount]: Difference['counts']): Message {
  return oneCount === otherCount
    ? message('season.counts.each', { oneCount })
    : message('season.counts.both', { oneCount, otherCount });
}
