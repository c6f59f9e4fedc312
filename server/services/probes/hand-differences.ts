/**
 * Where a probe and a thermometer in a hand spoke of the same place within the hour and disagree: the difference, as the offset
 * that the probe may be given. Once taken it is offered no more, for what was read before stays as it was read.
 */
import type { Clock } from '../../../shared/clock.ts';
import type { HandDifference } from '../../../shared/contracts/piles.ts';
import { mostOffsetK } from '../../../shared/contracts/probes.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { isHandProbe } from '../../../shared/hand-series.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { msPerDay } from '../../../shared/units.ts';
import type { WatchedPile } from '../../pile/watched-pile.ts';
import type { ProbeBook } from './probe-book.ts';

export interface DifferenceParts {
  readonly journal: Pick<Journal, 'settings'>;
  readonly probes: Pick<ProbeBook, 'get'>;
  readonly clock: Clock;
}

/** Below this a probe and a stem thermometer agree as well as either is good for [K]; our own choice, no source. */
const leastK = 0.5;
/** Older than this a comparison says nothing of the probe of today. Our own choice. */
const oldMs = msPerDay;

export async function handDifferences(
  { journal, probes, clock }: DifferenceParts,
  one: WatchedPile,
): Promise<HandDifference[]> {
  const { assessment } = await one.judged();
  const found: HandDifference[] = [];
  for (const { position, tempC, atMs, probeC } of assessment?.measuredByHand ?? []) {
    const claim = one.sources.find(
      (source) => source.position === position && source.claim.toMs === null && !isHandProbe(source.claim.probe),
    )?.claim;
    const known = claim && probes.get(claim.site, claim.probe);
    if (!known || probeC === null || claim.fromMs > atMs || clock.nowMs() - atMs > oldMs) continue;
    const differenceK = tenth(tempC - probeC);
    const offsetC = tenth(known.temperatureOffsetC + differenceK);
    if (Math.abs(differenceK) < leastK || Math.abs(offsetC) > mostOffsetK) continue;
    if ((await journal.settings.get(takenKey(claim))) === String(atMs)) continue;
    const { site, probe } = claim;
    found.push({ position, site, probe, at: toInstant(atMs), handC: tempC, probeC, differenceK, offsetC });
  }
  return found;
}

/** Call it with the offset that was set. */
export async function differenceTaken(
  { journal }: Pick<DifferenceParts, 'journal'>,
  difference: HandDifference,
): Promise<void> {
  await journal.settings.set(takenKey(difference), String(Date.parse(difference.at)));
}

const takenKey = ({ site, probe }: { readonly site: string; readonly probe: string }) => `offset-from/${site}/${probe}`;

const tenth = (value: number) => Math.round(value * 10) / 10;
