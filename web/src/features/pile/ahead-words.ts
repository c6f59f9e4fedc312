/**
 * The next day of a pile's core in words. It never foresees a hand: every sentence holds only if nobody touches the
 * pile, and says so.
 */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { msPerHour } from '../../../../shared/units.ts';
import { chancesInTen, likelihoodName } from '../../ui/format/likelihood.ts';
import { nearTime, type Reader } from '../../ui/format/local-time.ts';
import type { PileWords } from './use-pile-words.ts';

export interface AheadReader {
  readonly nowMs: number;
  readonly reader: Reader;
}

type OverLimit = NonNullable<PileDetail['judgement']>['overLimit'];

/** @param limitC the temperature at which to act; @param coreC the core now, null while it is not measured. */
export function overWords(
  over: OverLimit,
  limitC: number,
  coreC: number | null,
  shown: AheadReader,
  { text }: PileWords,
): string {
  const limit = { limitC: { valueC: limitC, decimals: 0 } } as const;
  if (coreC !== null && coreC > limitC) return text('page-pile.ahead.above', limit);
  if (over === null) return text('page-pile.ahead.unknown', limit);
  const { likelihood, at } = over;
  const when = { ...limit, ...whenOf(at === null ? null : Date.parse(at), shown) };
  const name = likelihoodName(likelihood);
  switch (name) {
    case 'very-likely':
    case 'likely': {
      const chanceCount = chancesInTen(likelihood);
      return text('page-pile.ahead.reaches', { ...when, isVery: name === 'very-likely', chanceCount });
    }
    case 'even':
      return text('page-pile.ahead.may', when);
    case 'unlikely':
      return text('page-pile.ahead.unlikely', when);
    case 'very-unlikely':
      return text('page-pile.ahead.very-unlikely', limit);
  }
}

/** "in about 3 h (14:00)": the judge looks hour by hour, so the nearest hour is as fine as it knows. */
function whenOf(atMs: number | null, { nowMs, reader }: AheadReader) {
  if (atMs === null) return { when: 'other', hoursNumber: 0, timeText: '' } as const;
  const hoursNumber = Math.round((atMs - nowMs) / msPerHour);
  const timeText = nearTime(atMs, nowMs, reader);
  return { when: hoursNumber < 1 ? 'soon' : 'hours', hoursNumber, timeText } as const;
}
