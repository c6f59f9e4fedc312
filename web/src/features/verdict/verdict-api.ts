/** The routes of verdicts; one is written down as an entry of the journal. */
import { batchesAnswerSchema } from '../../../../shared/contracts/lineage.ts';
import { verdictAnswerSchema } from '../../../../shared/contracts/verdict.ts';
import { ask } from '../../data/client.ts';

export const getVerdict = (batchId: string) =>
  ask(verdictAnswerSchema, `/api/batches/${encodeURIComponent(batchId)}/verdict`);

/** Of a pile, the newest first. */
export const getEnded = (pileId: string) =>
  ask(batchesAnswerSchema, `/api/batches?${new URLSearchParams({ pile: pileId, state: 'ended' })}`);
