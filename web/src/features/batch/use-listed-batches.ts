/** Every batch with what its line says: in words, so that they can be found, and in figures, so that they can be put in order. */
import { useMemo } from 'preact/hooks';
import type { BatchView } from '../../../../shared/contracts/lineage.ts';
import { useInstallation, useServerNow } from '../../data/live/use-installation.ts';
import { useQuery } from '../../data/use-query.ts';
import { useVerdictWords } from '../journal/use-verdict-words.ts';
import { getBatchPeaks } from './batch-api.ts';
import type { ListedBatch } from './batches-view.ts';
import { useBatchWords } from './use-batch-words.ts';

export function useListedBatches(batches: readonly BatchView[]): readonly ListedBatch[] {
  const { text } = useBatchWords();
  const verdictWords = useVerdictWords();
  const nowMs = useServerNow();
  const sites = useInstallation((installation) => installation.sites);
  const { value, error } = useQuery('peaks', getBatchPeaks);
  const peaks = useMemo(() => new Map(value?.peaks.map(({ id, peakC }) => [id, peakC])), [value]);
  return batches.map((batch) => {
    const { id, name, stage, pileName, site, verdict, startedAt, endedAt } = batch;
    const siteName = sites.find((one) => one.id === site)?.name ?? site;
    const judged = verdict ? verdictWords.text(`page-verdict.is.${verdict.verdict}`) : '';
    return {
      batch,
      peakC: value || error !== undefined ? (peaks.get(id) ?? null) : undefined,
      lengthMs: (endedAt === null ? nowMs : Date.parse(endedAt)) - Date.parse(startedAt),
      words: [name, text('page-batch.line.stage', { stage }), pileName, siteName, judged].join(' '),
    };
  });
}
