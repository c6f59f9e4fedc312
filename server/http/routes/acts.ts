/** What people did to a pile. */
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import { clockAheadMs } from '../../../shared/clock-ahead.ts';
import { actRecordSchema, newActSchema } from '../../../shared/contracts/piles.ts';
import { entryFactsSchema } from '../../../shared/entry.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { randomId } from '../../id-from-name.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import { signedBy } from '../../services/people/signed-by.ts';
import { actView } from '../../services/views/pile-detail.ts';
import type { Api } from '../api.ts';
import { notFound, refuseField } from '../problem.ts';
import { pileParams } from './piles.ts';

interface ActsParts {
  readonly journal: Journal;
  readonly watch: PilePort;
  readonly clock: Clock;
}

export function registerActs(api: Api, { journal, watch, clock }: ActsParts): void {
  api.get(
    '/api/piles/:id/acts',
    {
      config: { access: 'viewer' },
      schema: { params: pileParams, response: { 200: z.object({ acts: z.array(actRecordSchema) }) } },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!watch.get(id)) return notFound(reply, 'pile', id);
      return { acts: (await journal.acts.list(id)).map(actView) };
    },
  );

  api.post(
    '/api/piles/:id/acts',
    {
      config: { access: 'keeper', does: 'audit.did.wrote-down-what-was-done-to-pile' },
      schema: { params: pileParams, body: newActSchema, response: { 201: actRecordSchema } },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!watch.get(id)) return notFound(reply, 'pile', id);
      const { kind, at, amountL, depthM, rainMm, note } = request.body;
      const nowMs = clock.nowMs();
      if (at !== undefined && at > nowMs + clockAheadMs) {
        return refuseField(reply, 422, { pointer: '/at', said: message('problem.done-in-future') });
      }
      const act = {
        id: randomId(),
        pileId: id,
        kind,
        atMs: at ?? nowMs,
        note: note ?? null,
        ...(amountL !== undefined && { amountL }),
        ...(depthM !== undefined && { depthM }),
        ...(rainMm !== undefined && { rainMm }),
      };
      const { id: actId, pileId, atMs, note: said, ...what } = act;
      await journal.entries.add({
        id: actId,
        entryId: actId,
        version: 1,
        pileId,
        atMs,
        recordedAtMs: nowMs,
        by: signedBy(request, undefined) ?? null,
        note: said,
        photoIds: [],
        what: entryFactsSchema.parse(what),
        reason: null,
        withdrawn: false,
      });
      await watch.reload(id);
      return reply.code(201).send(actView(act));
    },
  );
}
