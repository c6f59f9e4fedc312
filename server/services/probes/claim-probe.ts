/** The claims of piles on probes, in the journal and in all that follows from them. */
import type { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import type { claimSchema } from '../../../shared/contracts/probes.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import type { WatchedPile } from '../../pile/watched-pile.ts';
import type { KnownProbe, ProbeBook } from './probe-book.ts';

export interface ClaimProbeParts {
  readonly probes: ProbeBook;
  readonly watch: PilePort;
  readonly clock: Clock;
  readonly journal: Journal;
}

/** The probe serves this pile, from when its batch was laid where nothing else is said; a claim before ends with it. */
export async function claimProbe(
  { probes, watch, clock, journal }: ClaimProbeParts,
  known: KnownProbe,
  { pile, batch }: Pick<WatchedPile, 'pile' | 'batch'>,
  { position, from }: Pick<z.output<typeof claimSchema>, 'position' | 'from'>,
): Promise<void> {
  const { site, probe } = known;
  const before = known.claim?.pileId;
  // A probe that spoke just before its batch was written down stood in the pile already.
  const laidMs = batch?.startedAtMs ?? clock.nowMs();
  const free = known.claim === null ? (known.lastAtMs ?? laidMs) : laidMs;
  const claim = { site, probe, pileId: pile.id, position, fromMs: from ?? Math.min(laidMs, free) };
  await journal.claims.claim(claim);
  probes.setClaim(known, { ...claim, toMs: null });
  await watch.reload(pile.id);
  if (before !== undefined && before !== pile.id) await watch.reload(before);
}

/** The probe serves no pile any more; nothing happens when it serves none. */
export async function releaseProbe(
  { probes, watch, clock, journal }: ClaimProbeParts,
  known: KnownProbe,
): Promise<void> {
  if (!known.claim) return;
  const { pileId } = known.claim;
  await journal.claims.release(known.site, known.probe, clock.nowMs());
  probes.setClaim(known, null);
  await watch.reload(pileId);
}
