/** Batches, and the steps in their lives. */
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import {
  abandonSchema,
  addInputSchema,
  batchDetailSchema,
  batchesAnswerSchema,
  batchesQuerySchema,
  continueBatchSchema,
  keepLotSchema,
  mergeBatchesSchema,
  newUseSchema,
  outcomeSchema,
  splitBatchSchema,
} from '../../../shared/contracts/lineage.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { batchDetail } from '../../services/lineage/batch-detail.ts';
import type { BatchLife } from '../../services/lineage/batch-life.ts';
import { batchView, readFamily } from '../../services/lineage/family.ts';
import { signedBy } from '../../services/people/signed-by.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound } from '../problem.ts';
import { pileParams } from './piles.ts';

interface BatchesParts {
  readonly clock: Clock;
  readonly journal: Journal;
}

export function registerBatches(api: Api, parts: BatchesParts, life: BatchLife): void {
  const { journal } = parts;

  const shown = async (id: string) => {
    const family = await readFamily(journal);
    const batch = family.batches.get(id);
    return batch && batchDetail(family, batch);
  };
  const answers = { params: pileParams, response: { 200: batchDetailSchema } };
  const answersNew = { params: pileParams, response: { 201: batchDetailSchema } };

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

  api.get('/api/batches/:id', { config: { access: 'viewer' }, schema: answers }, async (request, reply) => {
    return (await shown(request.params.id)) ?? notFound(reply, 'batch', request.params.id);
  });

  api.patch(
    '/api/batches/:id',
    { config: { access: 'keeper', does: 'changed a batch' }, schema: { ...answers, body: outcomeSchema } },
    async (request, reply) => {
      const { id } = request.params;
      const before = await shown(id);
      if (!before) return notFound(reply, 'batch', id);
      audit(request, { subject: before.name, before: { name: before.name, outcome: before.outcome } });
      const { outcome, name } = request.body;
      if (outcome !== undefined) await journal.lineage.setOutcome(id, outcome || null);
      if (name !== undefined) await journal.lineage.rename(id, name);
      return (await shown(id)) ?? notFound(reply, 'batch', id);
    },
  );

  api.post(
    '/api/batches/:id/continue',
    {
      config: { access: 'keeper', does: 'took a batch to its next stage' },
      schema: { ...answersNew, body: continueBatchSchema },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!(await shown(id))) return notFound(reply, 'batch', id);
      const made = await life.continue(id, request.body);
      const detail = await shown(made);
      return detail ? reply.code(201).send(detail) : notFound(reply, 'batch', made);
    },
  );

  api.post(
    '/api/batches/merge',
    {
      config: { access: 'keeper', does: 'merged batches' },
      schema: { body: mergeBatchesSchema, response: { 201: batchDetailSchema } },
    },
    async (request, reply) => {
      const made = await life.merge(request.body);
      const detail = await shown(made);
      return detail ? reply.code(201).send(detail) : notFound(reply, 'batch', made);
    },
  );

  const step = <Body extends z.ZodType>(
    name: string,
    does: string,
    body: Body,
    run: (id: string, ask: z.output<Body>, request: FastifyRequest) => Promise<unknown>,
  ) => {
    api.post(
      `/api/batches/:id/${name}`,
      { config: { access: 'keeper', does }, schema: { ...answers, body } },
      async (request, reply) => {
        const { id } = request.params;
        if (!(await shown(id))) return notFound(reply, 'batch', id);
        await run(id, request.body as z.output<Body>, request);
        return (await shown(id)) ?? notFound(reply, 'batch', id);
      },
    );
  };
  step('split', 'split a batch', splitBatchSchema, (id, ask) => life.split(id, ask));
  step('abandon', 'gave a batch up', abandonSchema, (id, ask) => life.abandon(id, ask));
  step('uses', 'used of a batch', newUseSchema, (id, ask, request) => {
    const by = signedBy(request, ask.by);
    return life.use(id, by === undefined ? ask : { ...ask, by });
  });
  step('keep', 'kept of a batch as a starter', keepLotSchema, (id, ask) => life.keepLot(id, ask));
  step('inputs', 'added an input to a batch', addInputSchema, (id, ask) => life.addInput(id, ask));

  api.delete(
    '/api/batches/:id/inputs/:flowId',
    {
      config: { access: 'keeper', does: 'took back an input of a batch' },
      schema: { ...answers, params: pileParams.extend({ flowId: z.string().min(1).max(64) }) },
    },
    async (request, reply) => {
      const { id, flowId } = request.params;
      const before = await shown(id);
      if (!before) return notFound(reply, 'batch', id);
      // Only what was mixed in: what one batch became of another is not unsaid by a click.
      const input = before.inputs.find((flow) => flow.id === flowId && flow.way === 'input');
      if (!input) return notFound(reply, 'input', flowId);
      await journal.lineage.withdraw(flowId, parts.clock.nowMs());
      return (await shown(id)) ?? notFound(reply, 'batch', id);
    },
  );
}
