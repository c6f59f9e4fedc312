/** The peak of every batch, for a list of them: nothing else of its curve is read. */
import { Breaks } from '../../../shared/breaks.ts';
import type { BatchPeaks } from '../../../shared/contracts/lineage.ts';
import { fineMs, readCorePeakC } from './batch-heat.ts';
import type { SeasonParts } from './compared-batches.ts';

export async function batchPeaks({ journal, readings, clock }: SeasonParts): Promise<BatchPeaks> {
  const [batches, piles, claims] = await Promise.all([
    journal.batches.list(),
    journal.piles.list(),
    journal.claims.list(),
  ]);
  const sites = new Map(piles.map(({ id, siteId }) => [id, siteId]));
  const breaks = new Breaks();
  const peaks: BatchPeaks['peaks'] = [];
  for (const batch of batches) {
    const siteId = sites.get(batch.pileId) ?? '';
    const untilMs = batch.endedAtMs ?? clock.nowMs();
    const peakC = await readCorePeakC(readings, { batch, siteId, claims, untilMs, stepMs: fineMs });
    peaks.push({ id: batch.id, peakC });
    await breaks.take();
  }
  return { peaks };
}
