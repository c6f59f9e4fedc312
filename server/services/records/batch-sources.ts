/** Which probes measured a batch while it lay there, also long after. */
import type { Journal } from '../../../shared/store/journal.ts';
import { type PileSource, pileSources } from '../../monitor/pile/pile-sources.ts';

export interface BatchTime {
  readonly pileId: string;
  readonly siteId: string;
  readonly fromMs: number;
  /** Excluded. */
  readonly toMs: number;
}

export async function batchSources(
  journal: Journal,
  { pileId, siteId, fromMs, toMs }: BatchTime,
): Promise<PileSource[]> {
  const claims = (await journal.claims.list()).filter(
    (claim) => claim.fromMs < toMs && (claim.toMs ?? Number.POSITIVE_INFINITY) > fromMs,
  );
  return pileSources(claims, pileId, siteId);
}
