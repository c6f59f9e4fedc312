/** Batches: listed, shown, renamed. */
import {
  batchDetailSchema,
  batchesAnswerSchema,
  batchesQuerySchema,
  batchPeaksAnswerSchema,
  outcomeSchema,
} from '../../../shared/contracts/lineage.ts';
import { verdictAnswerSchema } from '../../../shared/contracts/verdict.ts';
import { batchView, readFamily } from '../../services/lineage/family.ts';
import { shownBatch } from '../../services/lineage/shown-batch.ts';
import type { SeasonParts } from '../../services/seasons/compared-batches.ts';
import { batchVerdict } from '../../services/verdicts/batch-verdict.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound } from '../problem.ts';
import { pileParams } from './piles.ts';

export function registerBatches(api: Api, parts: SeasonParts): void {
  const { journal } = parts;
  const answers = { params: pileParams, response: { 200: batchDetailSchema } };

  api.get(
    '/api/batches',
    {
      config: { access: 'viewer' },
      schema: { querystring: batchesQuerySchema, response: { 200: batchesAnswerSchema } },
    },
    async (request) => {
      const { pile, stage, state } = request.query;
      const family = await readFamily(journal);
      const batches = [...family.batches.values()].filter(
        (batch) =>
          (pile === undefined || batch.pileId === pile) &&
          (stage === undefined || batch.stage === stage) &&
          (state === 'all' || (batch.endedAtMs === null) === (state === 'open')),
      );
      return { batches: batches.toReversed().map((batch) => batchView(family, batch)) };
    },
  );

  api.get(
    '/api/batches/peaks',
    { config: { access: 'viewer' }, schema: { response: { 200: batchPeaksAnswerSchema } } },
    async () => (await import('../../services/seasons/batch-peaks.ts')).batchPeaks(parts),
  );

  api.get('/api/batches/:id', { config: { access: 'viewer' }, schema: answers }, async (request, reply) => {
    return (await shownBatch(journal, request.params.id)) ?? notFound(reply, 'batch', request.params.id);
  });

  api.get(
    '/api/batches/:id/verdict',
    { config: { access: 'viewer' }, schema: { params: pileParams, response: { 200: verdictAnswerSchema } } },
    async (request, reply) =>
      (await batchVerdict(parts, request.params.id)) ?? notFound(reply, 'batch', request.params.id),
  );

  api.patch(
    '/api/batches/:id',
    {
      config: { access: 'keeper', does: 'audit.did.changed-batch' },
      schema: { ...answers, body: outcomeSchema },
    },
    async (request, reply) => {
      const { id } = request.params;
      const before = await shownBatch(journal, id);
      if (!before) return notFound(reply, 'batch', id);
      // The log keeps what people wrote, and no name that is worded anew for each reader.
      const given = before.messages?.name === undefined ? before.name : null;
      audit(request, { subject: given ?? before.pileName, before: { name: given, outcome: before.outcome } });
      const { outcome, name } = request.body;
      if (outcome !== undefined) await journal.lineage.setOutcome(id, outcome || null);
      if (name !== undefined) await journal.lineage.rename(id, name);
      return (await shownBatch(journal, id)) ?? notFound(reply, 'batch', id);
    },
  );
}
