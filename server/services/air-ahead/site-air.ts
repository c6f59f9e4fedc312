import { airNow } from '../../../core/expect/air-ahead.ts';
import type { Clock } from '../../../shared/clock.ts';
import type { PileDetail } from '../../../shared/contracts/piles.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { WatchedPile } from '../../pile/watched-pile.ts';
import type { ProbeBook } from '../probes/probe-book.ts';
import { shownSource } from './shown-source.ts';

interface SiteAirParts {
  readonly journal: Pick<Journal, 'airAhead'>;
  readonly clock: Clock;
  readonly probes: Pick<ProbeBook, 'of'>;
}

type SiteAir = Pick<PileDetail, 'siteAir' | 'neighbourAir'>;

/** What a pile is judged by, and its expected curve rests on, where the probe that should say its air does not; nothing where it does. */
export async function siteAirOf(
  { journal, clock, probes }: SiteAirParts,
  one: WatchedPile,
  { positions: { air } }: Pick<PileDetail, 'positions'>,
): Promise<SiteAir> {
  if (one.batch === null || (air && !air.silent)) return {};
  const { assessment } = await one.judged();
  const standby = one.standbys.find((source) => assessment?.airStandIn === `standby-${source.standby}`);
  if (standby) {
    const { pileId, site, probe } = standby.claim;
    const { temperature } = probes.of(site, probe).last;
    if (temperature)
      return { neighbourAir: { pileId, probe, temperatureC: temperature.value, at: toInstant(temperature.atMs) } };
  }
  const foretold = await journal.airAhead.get(one.pile.siteId);
  const now = foretold && airNow(foretold, clock.nowMs());
  if (!now) return {};
  const { tempC: temperatureC, doubtK, source, issuedMs } = now;
  return { siteAir: { temperatureC, doubtK, ...shownSource(source), issuedAt: toInstant(issuedMs) } };
}
