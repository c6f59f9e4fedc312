/** The batch that lies on a pile: laid, and finished. */
import type { Clock } from '../../../shared/clock.ts';
import { finishBatchSchema, newBatchSchema, pileDetailSchema } from '../../../shared/contracts/piles.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import { newBatch, startProblem } from '../../services/lineage/new-batch.ts';
import type { Api } from '../api.ts';
import { notFound, refuseField, sendProblem } from '../problem.ts';
import { sendPileAnew } from '../send-pile-anew.ts';
import { pileParams } from './piles.ts';

interface PileBatchesParts {
  readonly journal: Journal;
  readonly watch: PilePort;
  readonly clock: Clock;
}

export function registerPileBatches(api: Api, parts: PileBatchesParts): void {
  const { journal, watch, clock } = parts;

  api.post(
    '/api/piles/:id/finish',
    {
      config: { access: 'keeper', does: 'audit.did.finished-batch-of-pile' },
      schema: { params: pileParams, body: finishBatchSchema.nullish(), response: { 200: pileDetailSchema } },
    },
    async (request, reply) => {
      const one = watch.get(request.params.id);
      if (!one) return notFound(reply, 'pile', request.params.id);
      if (!one.batch) return sendProblem(reply, 409, message('problem.no-batch-on-pile', { pileName: one.pile.name }));
      const atMs = request.body?.at ?? clock.nowMs();
      if (atMs < one.batch.startedAtMs) return sendProblem(reply, 422, message('problem.ends-before-laid'));
      await watch.closeAlarms(one.pile.id);
      await journal.batches.finish(one.batch.id, atMs, request.body?.outcome ?? null);
      return sendPileAnew(parts, one.pile.id, reply);
    },
  );

  api.post(
    '/api/piles/:id/batches',
    {
      config: { access: 'keeper', does: 'audit.did.laid-batch-on-pile' },
      schema: { params: pileParams, body: newBatchSchema, response: { 201: pileDetailSchema } },
    },
    async (request, reply) => {
      const one = watch.get(request.params.id);
      if (!one) return notFound(reply, 'pile', request.params.id);
      const nowMs = clock.nowMs();
      const problem = startProblem(request.body.startedAt, nowMs);
      if (problem) return refuseField(reply, 422, { pointer: '/startedAt', said: problem });
      await journal.batches.add(newBatch(one.pile.id, request.body, nowMs));
      reply.code(201);
      return sendPileAnew(parts, one.pile.id, reply);
    },
  );
}
