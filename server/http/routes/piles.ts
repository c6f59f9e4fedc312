/** Piles: listed, laid with their first batch, changed, removed. */
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import {
  newPileSchema,
  pileChangeSchema,
  pileDetailSchema,
  pilesAnswerSchema,
} from '../../../shared/contracts/piles.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { randomId } from '../../id-from-name.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import { siteAirOf } from '../../services/air-ahead/site-air.ts';
import { newBatch, startProblem } from '../../services/lineage/new-batch.ts';
import { omitUndefined } from '../../services/omit-undefined.ts';
import { handDifferences } from '../../services/probes/hand-differences.ts';
import type { ProbeBook } from '../../services/probes/probe-book.ts';
import { pileDetail } from '../../services/views/pile-detail.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound, refuseField } from '../problem.ts';
import { sendPileAnew } from '../send-pile-anew.ts';

export const pileParams = z.object({ id: z.string().min(1).max(64) });

interface PilesParts {
  readonly journal: Journal;
  readonly watch: PilePort;
  readonly clock: Clock;
  readonly probes: ProbeBook;
}

export function registerPiles(api: Api, parts: PilesParts): void {
  registerPileReads(api, parts);
  registerPileChanges(api, parts);
}

function registerPileReads(api: Api, parts: PilesParts): void {
  const { journal, watch } = parts;
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
      if (!one) return notFound(reply, 'pile', request.params.id);
      const detail = await pileDetail(one, await journal.acts.list(one.pile.id));
      const siteAir = await siteAirOf(parts, one, detail);
      return { ...detail, ...siteAir, handDifferences: await handDifferences(parts, one) };
    },
  );
}

function registerPileChanges(api: Api, parts: PilesParts): void {
  const { journal, watch, clock } = parts;

  api.post(
    '/api/piles',
    {
      config: { access: 'keeper', does: 'audit.did.laid-pile' },
      schema: { body: newPileSchema, response: { 201: pileDetailSchema } },
    },
    async (request, reply) => {
      const { id, site, name } = request.body;
      const nowMs = clock.nowMs();
      const problem = startProblem(request.body.startedAt, nowMs);
      if (problem) return refuseField(reply, 422, { pointer: '/startedAt', said: problem });
      const pile = { id: id ?? randomId(), siteId: site, name, createdAtMs: nowMs };
      await journal.piles.add(pile, newBatch(pile.id, request.body, nowMs));
      const added = await watch.reload(pile.id);
      return added ? reply.code(201).send(await pileDetail(added, [])) : notFound(reply, 'pile', pile.id);
    },
  );

  api.patch(
    '/api/piles/:id',
    {
      config: { access: 'keeper', does: 'audit.did.changed-pile' },
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
      return sendPileAnew(parts, one.pile.id, reply);
    },
  );

  api.delete(
    '/api/piles/:id',
    {
      config: { access: 'keeper', does: 'audit.did.removed-pile' },
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
}
