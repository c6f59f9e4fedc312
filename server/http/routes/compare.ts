/** Batches laid beside each other, on pages and as files. */
import { z } from 'zod';
import {
  choiceSchema,
  closestAnswerSchema,
  compareAnswerSchema,
  curvesAnswerSchema,
} from '../../../shared/contracts/seasons.ts';
import { compareCsv } from '../../services/seasons/compare-table.ts';
import type { SeasonParts } from '../../services/seasons/compared-batches.ts';
import { closest, compare, curves } from '../../services/seasons/season-service.ts';
import type { Api } from '../api.ts';
import { notFound } from '../problem.ts';

export function registerCompare(api: Api, parts: SeasonParts): void {
  api.get(
    '/api/compare',
    { config: { access: 'viewer' }, schema: { querystring: choiceSchema, response: { 200: compareAnswerSchema } } },
    async (request) => compare(parts, request.query),
  );

  api.get(
    '/api/compare/curves',
    { config: { access: 'viewer' }, schema: { querystring: choiceSchema, response: { 200: curvesAnswerSchema } } },
    async (request) => ({ curves: await curves(parts, request.query) }),
  );

  api.get(
    '/api/compare.csv',
    { config: { access: 'viewer' }, schema: { querystring: choiceSchema } },
    async (request, reply) => {
      const { batches } = await compare(parts, request.query);
      return reply
        .type('text/csv; charset=utf-8')
        .header('content-disposition', 'attachment; filename="batches-compared.csv"')
        .send(compareCsv(batches));
    },
  );

  api.get(
    '/api/compare.json',
    { config: { access: 'viewer' }, schema: { querystring: choiceSchema, response: { 200: compareAnswerSchema } } },
    async (request, reply) =>
      reply
        .header('content-disposition', 'attachment; filename="batches-compared.json"')
        .send(await compare(parts, request.query)),
  );

  api.get(
    '/api/batches/:id/closest',
    {
      config: { access: 'viewer' },
      schema: { params: z.object({ id: z.string().min(1).max(64) }), response: { 200: closestAnswerSchema } },
    },
    async (request, reply) => (await closest(parts, request.params.id)) ?? notFound(reply, 'batch', request.params.id),
  );
}
