/**
 * The next day of a pile's core in words. It never foresees a hand: every sentence holds only if nobody touches the
 * pile, and says so.
 */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { msPerHour } from '../../../../shared/units.ts';
import { chancesInTen, likelihoodName } from '../../ui/format/likelihood.ts';
import { nearTime, type Reader } from '../../ui/format/local-time.ts';
import { formatTemp, type TempUnit } from '../../ui/format/temperature.ts';

export interface AheadReader {
  readonly nowMs: number;
  readonly unit: TempUnit;
  readonly reader: Reader;
}

type OverLimit = NonNullable<PileDetail['judgement']>['overLimit'];

/** @param limitC the temperature at which to act; @param coreC the core now, null while it is not measured. */
export function overWords(over: OverLimit, limitC: number, coreC: number | null, shown: AheadReader): string {
  const limit = formatTemp(limitC, shown.unit, 0);
  if (coreC !== null && coreC > limitC) return `It stands above ${limit} now.`;
  if (over === null) return `Whether it will reach ${limit} is not known yet.`;
  const { likelihood, at } = over;
  const name = likelihoodName(likelihood);
  const when = at === null ? 'within 12 hours' : aboutWhen(Date.parse(at), shown);
  switch (name) {
    case 'very likely':
    case 'likely':
      return `It reaches ${limit} ${when}, ${name}: ${chancesInTen(likelihood)}.`;
    case 'about as likely as not':
      return `It may reach ${limit} ${when}: ${name}.`;
    case 'unlikely':
      return `It is unlikely to reach ${limit} in the next 12 hours${at === null ? '' : `; if it does, ${when}`}.`;
    case 'very unlikely':
      return `It is very unlikely to reach ${limit} in the next 12 hours.`;
  }
}

/** "in about 3 h (14:00)": the judge looks hour by hour, so the nearest hour is as fine as it knows. */
function aboutWhen(atMs: number, { nowMs, reader }: AheadReader): string {
  const hours = Math.round((atMs - nowMs) / msPerHour);
  if (hours < 1) return 'within the hour';
  return `in about ${hours} h (${nearTime(atMs, nowMs, reader)})`;
}
