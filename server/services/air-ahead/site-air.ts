import { airNow } from '../../../core/expect/air-ahead.ts';
import type { Clock } from '../../../shared/clock.ts';
import type { PileDetail } from '../../../shared/contracts/piles.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { WatchedPile } from '../../monitor/pile/watched-pile.ts';
import { shownSource } from './shown-source.ts';

interface SiteAirParts {
  readonly journal: Pick<Journal, 'airAhead'>;
  readonly clock: Clock;
}

/** What a pile is expected to do rests on this where no probe says what its air is; undefined where one does. */
export async function siteAirOf(
  { journal, clock }: SiteAirParts,
  { pile, batch }: Pick<WatchedPile, 'pile' | 'batch'>,
  { positions: { air } }: Pick<PileDetail, 'positions'>,
): Promise<PileDetail['siteAir']> {
  if (batch === null || (air && !air.silent)) return undefined;
  const foretold = await journal.airAhead.get(pile.siteId);
  const now = foretold && airNow(foretold, clock.nowMs());
  if (!now) return undefined;
  const { tempC: temperatureC, doubtK, source, issuedMs } = now;
  return { temperatureC, doubtK, ...shownSource(source), issuedAt: toInstant(issuedMs) };
}
