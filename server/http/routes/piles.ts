/** Piles and their batches. */
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import {
  finishBatchSchema,
  newBatchSchema,
  newPileSchema,
  pileChangeSchema,
  pileDetailSchema,
  pilesAnswerSchema,
} from '../../../shared/contracts/piles.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PilePort } from '../../monitor/pile/pile-port.ts';
import { idFromName, randomId } from '../../services/id-from-name.ts';
import { omitUndefined } from '../../services/omit-undefined.ts';
import { pileDetail } from '../../services/views/pile-detail.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound, sendProblem } from '../problem.ts';

export const pileParams = z.object({ id: z.string().min(1).max(64) });

interface PilesParts {
  readonly journal: Journal;
  readonly watch: PilePort;
  readonly clock: Clock;
}

export function registerPiles(api: Api, { journal, watch, clock }: PilesParts): void {
  /** The pile as it stands after a change of its records. */
  const readAnew = async (id: string, reply: FastifyReply) => {
    const one = await watch.reload(id);
    return one ? pileDetail(one, await journal.acts.list(id)) : notFound(reply, 'pile', id);
  };

  api.get(
    '/api/piles',
    { config: { access: 'viewer' }, schema: { response: { 200: pilesAnswerSchema } } },
    async () => ({
      piles: watch.all().map((one) => one.summary()),
    }),
  );

  api.get(
    '/api/piles/:id',
    { config: { access: 'viewer' }, schema: { params: pileParams, response: { 200: pileDetailSchema } } },
    async (request, reply) => {
      const one = watch.get(request.params.id);
      return one ? pileDetail(one, await journal.acts.list(one.pile.id)) : notFound(reply, 'pile', request.params.id);
    },
  );

  api.post(
    '/api/piles',
    {
      config: { access: 'keeper', does: 'laid a pile' },
      schema: { body: newPileSchema, response: { 201: pileDetailSchema } },
    },
    async (request, reply) => {
      const { id, site, name, stage, startedAt, recipe, limits } = request.body;
      const nowMs = clock.nowMs();
      const problem = startProblem(startedAt, nowMs);
      if (problem) return sendProblem(reply, 422, problem, { errors: [{ pointer: '/startedAt', detail: problem }] });
      const pile = { id: id ?? idFromName(name), siteId: site, name, createdAtMs: nowMs };
      await journal.piles.add(pile, {
        id: randomId(),
        pileId: pile.id,
        stage,
        startedAtMs: startedAt ?? nowMs,
        endedAtMs: null,
        outcome: null,
        recipe: omitUndefined(recipe),
        limits: omitUndefined(limits),
      });
      const added = await watch.reload(pile.id);
      return added ? reply.code(201).send(await pileDetail(added, [])) : notFound(reply, 'pile', pile.id);
    },
  );

  api.patch(
    '/api/piles/:id',
    {
      config: { access: 'keeper', does: 'changed a pile' },
      schema: { params: pileParams, body: pileChangeSchema, response: { 200: pileDetailSchema } },
    },
    async (request, reply) => {
      const one = watch.get(request.params.id);
      if (!one) return notFound(reply, 'pile', request.params.id);
      const { name, limits } = request.body;
      audit(request, { before: { name: one.pile.name, ...(limits && { limits: one.batch?.limits ?? {} }) } });
      if (name !== undefined) await journal.piles.rename(one.pile.id, name);
      if (limits && one.batch) {
        await journal.batches.change(one.batch.id, { limits: { ...one.batch.limits, ...omitUndefined(limits) } });
      }
      return readAnew(one.pile.id, reply);
    },
  );

  api.delete(
    '/api/piles/:id',
    {
      config: { access: 'keeper', does: 'removed a pile' },
      schema: { params: pileParams, response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      const { id } = request.params;
      const one = watch.get(id);
      if (!one) return notFound(reply, 'pile', id);
      audit(request, { before: { name: one.pile.name, site: one.pile.siteId } });
      await journal.piles.remove(id);
      await watch.reload(id);
      return reply.code(204).send();
    },
  );

  api.post(
    '/api/piles/:id/finish',
    {
      config: { access: 'keeper', does: 'finished the batch of a pile' },
      schema: { params: pileParams, body: finishBatchSchema.nullish(), response: { 200: pileDetailSchema } },
    },
    async (request, reply) => {
      const one = watch.get(request.params.id);
      if (!one) return notFound(reply, 'pile', request.params.id);
      if (!one.batch) return sendProblem(reply, 409, `No batch lies on ${one.pile.name} now.`);
      const atMs = request.body?.at ?? clock.nowMs();
      if (atMs < one.batch.startedAtMs) return sendProblem(reply, 422, 'A batch cannot end before it was laid.');
      await watch.closeAlarms(one.pile.id);
      await journal.batches.finish(one.batch.id, atMs, request.body?.outcome ?? null);
      return readAnew(one.pile.id, reply);
    },
  );

  api.post(
    '/api/piles/:id/batches',
    {
      config: { access: 'keeper', does: 'laid a batch on a pile' },
      schema: { params: pileParams, body: newBatchSchema, response: { 201: pileDetailSchema } },
    },
    async (request, reply) => {
      const one = watch.get(request.params.id);
      if (!one) return notFound(reply, 'pile', request.params.id);
      const { stage, startedAt, recipe, limits } = request.body;
      const nowMs = clock.nowMs();
      const problem = startProblem(startedAt, nowMs);
      if (problem) return sendProblem(reply, 422, problem, { errors: [{ pointer: '/startedAt', detail: problem }] });
      await journal.batches.add({
        id: randomId(),
        pileId: one.pile.id,
        stage,
        startedAtMs: startedAt ?? nowMs,
        endedAtMs: null,
        outcome: null,
        recipe: omitUndefined(recipe),
        limits: omitUndefined(limits),
      });
      reply.code(201);
      return readAnew(one.pile.id, reply);
    },
  );
}

function startProblem(startedAtMs: number | undefined, nowMs: number): string | undefined {
  if (startedAtMs === undefined || startedAtMs <= nowMs + 5 * 60_000) return undefined;
  return 'A batch that is watched cannot have been laid in the future.';
}
