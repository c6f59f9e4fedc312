/** Which probes measured a batch while it lay there, also long after. */
import { isHandProbe } from '../../../shared/hand-series.ts';
import type { ClaimRecord, Journal } from '../../../shared/store/journal.ts';
import { handSources, type PileSource, pileSources } from '../../pile/pile-sources.ts';

export interface BatchTime {
  readonly pileId: string;
  readonly siteId: string;
  readonly fromMs: number;
  /** Excluded. */
  readonly toMs: number;
}

export async function batchSources(journal: Journal, time: BatchTime): Promise<PileSource[]> {
  return pileSources(await claimsOf(journal, time), time.pileId, time.siteId);
}

/** With all that was measured by hand, also beside a probe: two series of one place. */
export async function allBatchSources(journal: Journal, time: BatchTime): Promise<PileSource[]> {
  const claims = await claimsOf(journal, time);
  const probes = claims.filter(({ probe }) => !isHandProbe(probe));
  return [...pileSources(probes, time.pileId, time.siteId), ...handSources(claims, time.pileId)];
}

async function claimsOf(journal: Journal, { fromMs, toMs }: BatchTime): Promise<ClaimRecord[]> {
  return (await journal.claims.list()).filter(
    (claim) => claim.fromMs < toMs && (claim.toMs ?? Number.POSITIVE_INFINITY) > fromMs,
  );
}
