/** The steps in the life of a batch: its next stage, merged, split, used, kept of, given up. */
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import {
  abandonSchema,
  addInputSchema,
  batchDetailSchema,
  continueBatchSchema,
  keepLotSchema,
  mergeBatchesSchema,
  newUseSchema,
  splitBatchSchema,
} from '../../../shared/contracts/lineage.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { BatchLife } from '../../services/lineage/batch-life.ts';
import { shownBatch } from '../../services/lineage/shown-batch.ts';
import type { AuditedCode } from '../../services/people/audited-code.ts';
import { signedBy } from '../../services/people/signed-by.ts';
import type { Api } from '../api.ts';
import { notFound } from '../problem.ts';
import { pileParams } from './piles.ts';

interface BatchStepsParts {
  readonly clock: Clock;
  readonly journal: Journal;
}

const answers = { params: pileParams, response: { 200: batchDetailSchema } };

export function registerBatchSteps(api: Api, parts: BatchStepsParts, life: BatchLife): void {
  registerFollowingBatches(api, parts, life);
  registerStep(api, parts, ['split', 'audit.did.split-batch'], splitBatchSchema, (id, ask) => life.split(id, ask));
  registerStep(api, parts, ['abandon', 'audit.did.gave-batch-up'], abandonSchema, (id, ask) => life.abandon(id, ask));
  registerStep(api, parts, ['uses', 'audit.did.used-of-batch'], newUseSchema, (id, ask, request) => {
    const by = signedBy(request, ask.by);
    return life.use(id, by === undefined ? ask : { ...ask, by });
  });
  registerStep(api, parts, ['keep', 'audit.did.kept-of-batch-as-starter'], keepLotSchema, (id, ask) =>
    life.keepLot(id, ask),
  );
  registerStep(api, parts, ['inputs', 'audit.did.added-input-to-batch'], addInputSchema, (id, ask) =>
    life.addInput(id, ask),
  );
  registerInputWithdrawal(api, parts);
}

/** Steps of which a new batch comes. */
function registerFollowingBatches(api: Api, { journal }: BatchStepsParts, life: BatchLife): void {
  api.post(
    '/api/batches/:id/continue',
    {
      config: { access: 'keeper', does: 'audit.did.took-batch-to-its-next-stage' },
      schema: { params: pileParams, response: { 201: batchDetailSchema }, body: continueBatchSchema },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!(await shownBatch(journal, id))) return notFound(reply, 'batch', id);
      const made = await life.continue(id, request.body);
      const detail = await shownBatch(journal, made);
      return detail ? reply.code(201).send(detail) : notFound(reply, 'batch', made);
    },
  );

  api.post(
    '/api/batches/merge',
    {
      config: { access: 'keeper', does: 'audit.did.merged-batches' },
      schema: { body: mergeBatchesSchema, response: { 201: batchDetailSchema } },
    },
    async (request, reply) => {
      const made = await life.merge(request.body);
      const detail = await shownBatch(journal, made);
      return detail ? reply.code(201).send(detail) : notFound(reply, 'batch', made);
    },
  );
}

/** A step after which the same batch is shown anew. @param path Its last part. @param does What the audit trail says. */
function registerStep<Body extends z.ZodType>(
  api: Api,
  { journal }: BatchStepsParts,
  [path, does]: readonly [path: string, does: AuditedCode],
  body: Body,
  run: (id: string, ask: z.output<Body>, request: FastifyRequest) => Promise<unknown>,
): void {
  api.post(
    `/api/batches/:id/${path}`,
    { config: { access: 'keeper', does }, schema: { ...answers, body } },
    async (request, reply) => {
      const { id } = request.params;
      if (!(await shownBatch(journal, id))) return notFound(reply, 'batch', id);
      await run(id, request.body as z.output<Body>, request);
      return (await shownBatch(journal, id)) ?? notFound(reply, 'batch', id);
    },
  );
}

function registerInputWithdrawal(api: Api, { journal, clock }: BatchStepsParts): void {
  api.delete(
    '/api/batches/:id/inputs/:flowId',
    {
      config: { access: 'keeper', does: 'audit.did.took-back-input-of-batch' },
      schema: { ...answers, params: pileParams.extend({ flowId: z.string().min(1).max(64) }) },
    },
    async (request, reply) => {
      const { id, flowId } = request.params;
      const before = await shownBatch(journal, id);
      if (!before) return notFound(reply, 'batch', id);
      // Only what was mixed in: what one batch became of another is not unsaid by a click.
      const input = before.inputs.find((flow) => flow.id === flowId && flow.way === 'input');
      if (!input) return notFound(reply, 'input', flowId);
      await journal.lineage.withdraw(flowId, clock.nowMs());
      return (await shownBatch(journal, id)) ?? notFound(reply, 'batch', id);
    },
  );
}
