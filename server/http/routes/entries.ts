/** The journal of a pile: entries handed in, listed, corrected, struck out. */

import type { FastifyReply } from 'fastify';
import type { Clock } from '../../../shared/clock.ts';
import {
  correctionSchema,
  entriesAnswerSchema,
  entriesQuerySchema,
  entryDetailSchema,
  entrySchema,
  newEntrySchema,
  type QueuedAnswer,
  type QueuedOutcome,
  queuedAnswerSchema,
  queuedEntriesSchema,
  withdrawalSchema,
} from '../../../shared/contracts/journal.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import { entriesPage } from '../../services/journal/entries-page.ts';
import { findEntry } from '../../services/journal/find-entry.ts';
import { JournalService, timeProblem } from '../../services/journal/journal-service.ts';
import { handInQueue } from '../../services/journal/queue.ts';
import { signedBy } from '../../services/people/signed-by.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound, refuseField, sendProblem } from '../problem.ts';
import { pileParams } from './piles.ts';

interface EntriesParts {
  readonly journal: Journal;
  readonly readings: ReadingsStore;
  readonly watch: PilePort;
  readonly clock: Clock;
}

export function registerEntries(api: Api, parts: EntriesParts): void {
  const { journal, readings, watch, clock } = parts;
  const service = new JournalService({ journal, readings, clock, acted: (pileId) => watch.reload(pileId) });
  registerEntryReads(api, parts);
  registerNewEntries(api, parts, service);
  registerEntryChanges(api, parts, service);
}

function registerEntryReads(api: Api, { journal, watch }: EntriesParts): void {
  api.get(
    '/api/piles/:id/entries',
    {
      config: { access: 'viewer' },
      schema: { params: pileParams, querystring: entriesQuerySchema, response: { 200: entriesAnswerSchema } },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!watch.get(id)) return notFound(reply, 'pile', id);
      return entriesPage(journal, request.query, { pileId: id });
    },
  );

  api.get(
    '/api/batches/:id/entries',
    {
      config: { access: 'viewer' },
      schema: { params: pileParams, querystring: entriesQuerySchema, response: { 200: entriesAnswerSchema } },
    },
    async (request, reply) => {
      const batch = (await journal.batches.list()).find(({ id }) => id === request.params.id);
      if (!batch) return notFound(reply, 'batch', request.params.id);
      const { pileId, startedAtMs: fromMs, endedAtMs } = batch;
      return entriesPage(journal, request.query, {
        pileId,
        batchId: batch.id,
        fromMs,
        ...(endedAtMs !== null && { toMs: endedAtMs }),
      });
    },
  );

  api.get(
    '/api/entries/:id',
    { config: { access: 'viewer' }, schema: { params: pileParams, response: { 200: entryDetailSchema } } },
    async (request, reply) => {
      const found = await findEntry(journal, request.params.id);
      return found ? { entry: found.entry, earlier: found.earlier } : notFound(reply, 'entry', request.params.id);
    },
  );
}

function registerNewEntries(api: Api, { journal, watch, clock }: EntriesParts, service: JournalService): void {
  api.post(
    '/api/piles/:id/entries',
    {
      config: { access: 'keeper', does: 'audit.did.wrote-into-journal-of-pile' },
      schema: { params: pileParams, body: newEntrySchema, response: { 200: entrySchema, 201: entrySchema } },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!watch.get(id)) return notFound(reply, 'pile', id);
      const problem = timeProblem(request.body.at, clock.nowMs());
      if (problem) return badTime(reply, problem);
      const { kept, entryId } = await service.add(id, { ...request.body, by: signedBy(request, request.body.by) });
      const made = await findEntry(journal, entryId);
      if (!made) return notFound(reply, 'entry', entryId);
      return reply.code(kept === 'kept' ? 201 : 200).send(made.entry);
    },
  );

  api.post(
    '/api/entries',
    {
      config: { access: 'keeper', does: 'audit.did.handed-in-entries-that-had-waited' },
      schema: { body: queuedEntriesSchema, response: { 200: queuedAnswerSchema } },
    },
    async (request, reply) => {
      const { entries, writer } = request.body;
      if (writer !== undefined && writer !== request.person?.id) {
        return sendProblem(reply, 403, message('problem.others-entries'));
      }
      const { outcomes, kept } = await handInQueue(entries, service, clock, (by) => signedBy(request, by));
      const subject = kept.map(({ id }) => id).join(', ');
      audit(request, {
        ...(subject !== '' && { subject }),
        after: { entries: kept, outcomes: outcomeCounts(outcomes) },
      });
      return { outcomes };
    },
  );
}

function registerEntryChanges(api: Api, { journal, clock }: EntriesParts, service: JournalService): void {
  api.post(
    '/api/entries/:id/corrections',
    {
      config: { access: 'keeper', does: 'audit.did.corrected-entry' },
      schema: { params: pileParams, body: correctionSchema, response: { 200: entrySchema, 201: entrySchema } },
    },
    async (request, reply) => {
      const found = await findEntry(journal, request.params.id);
      if (!found) return notFound(reply, 'entry', request.params.id);
      const problem = timeProblem(request.body.at, clock.nowMs());
      if (problem) return badTime(reply, problem);
      const { kept } = await service.correct(found.newest, { ...request.body, by: signedBy(request, request.body.by) });
      if (kept === 'kept') audit(request, { subject: found.newest.pileId, before: found.entry });
      const corrected = await findEntry(journal, request.params.id);
      return reply.code(kept === 'kept' ? 201 : 200).send((corrected ?? found).entry);
    },
  );

  api.post(
    '/api/entries/:id/withdrawal',
    {
      config: { access: 'keeper', does: 'audit.did.struck-out-entry' },
      schema: { params: pileParams, body: withdrawalSchema, response: { 200: entrySchema } },
    },
    async (request, reply) => {
      const found = await findEntry(journal, request.params.id);
      if (!found) return notFound(reply, 'entry', request.params.id);
      await service.withdraw(found.newest, { ...request.body, by: signedBy(request, request.body.by) });
      audit(request, { subject: found.newest.pileId, before: found.entry });
      return ((await findEntry(journal, request.params.id)) ?? found).entry;
    },
  );
}

function outcomeCounts(outcomes: QueuedAnswer['outcomes']): Partial<Record<QueuedOutcome, number>> {
  const counts: Partial<Record<QueuedOutcome, number>> = {};
  for (const { outcome } of outcomes) counts[outcome] = (counts[outcome] ?? 0) + 1;
  return counts;
}

function badTime(reply: FastifyReply, said: Message) {
  return refuseField(reply, 422, { pointer: '/at', said });
}
