/** Starters and materials, lot by lot, and the lineage that leads from them to the beds. */
import { lineageAnswerSchema, lineageQuerySchema } from '../../../shared/contracts/lineage.ts';
import { lotChangeSchema, lotSchema, lotsAnswerSchema, newLotSchema } from '../../../shared/contracts/lots.ts';
import type { Journal, LotRecord } from '../../../shared/store/journal.ts';
import type { BatchLife } from '../../services/lineage/batch-life.ts';
import { readFamily } from '../../services/lineage/family.ts';
import { lineageFrom, wholeLineage } from '../../services/lineage/lineage-view.ts';
import { lotView } from '../../services/lineage/lot-view.ts';
import { omitUndefined } from '../../services/omit-undefined.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound } from '../problem.ts';
import { pileParams } from './piles.ts';

interface LotsParts {
  readonly journal: Journal;
}

export function registerLots(api: Api, { journal }: LotsParts, life: BatchLife): void {
  api.get('/api/lots', { config: { access: 'viewer' }, schema: { response: { 200: lotsAnswerSchema } } }, async () => ({
    lots: (await journal.lots.list()).map(lotView),
  }));

  api.post(
    '/api/lots',
    {
      config: { access: 'keeper', does: 'audit.did.added-lot' },
      schema: { body: newLotSchema, response: { 201: lotSchema } },
    },
    async (request, reply) => {
      const id = await life.addLot(request.body);
      const lot = await journal.lots.get(id);
      return lot ? reply.code(201).send(lotView(lot)) : notFound(reply, 'lot', id);
    },
  );

  api.get(
    '/api/lots/:id',
    { config: { access: 'viewer' }, schema: { params: pileParams, response: { 200: lotSchema } } },
    async (request, reply) => {
      const lot = await journal.lots.get(request.params.id);
      return lot ? lotView(lot) : notFound(reply, 'lot', request.params.id);
    },
  );

  api.patch(
    '/api/lots/:id',
    {
      config: { access: 'keeper', does: 'audit.did.changed-lot' },
      schema: { params: pileParams, body: lotChangeSchema, response: { 200: lotSchema } },
    },
    async (request, reply) => {
      const lot = await journal.lots.get(request.params.id);
      if (!lot) return notFound(reply, 'lot', request.params.id);
      audit(request, { before: lotView(lot) });
      const changed: LotRecord = { ...lot, ...omitUndefined(request.body) };
      await journal.lots.change(changed);
      return lotView(changed);
    },
  );

  api.get(
    '/api/lineage',
    {
      config: { access: 'viewer' },
      schema: { querystring: lineageQuerySchema, response: { 200: lineageAnswerSchema } },
    },
    async (request, reply) => {
      const { start, way } = request.query;
      const family = await readFamily(journal);
      if (start === undefined) return wholeLineage(family);
      return lineageFrom(family, start, way) ?? notFound(reply, 'start', start);
    },
  );
}
