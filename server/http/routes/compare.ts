/** Batches laid beside each other, on pages and as files. */
import { z } from 'zod';
import {
  choiceSchema,
  closestAnswerSchema,
  compareAnswerSchema,
  curvesAnswerSchema,
} from '../../../shared/contracts/seasons.ts';
import type { SeasonParts } from '../../services/seasons/compared-batches.ts';
import type { Api } from '../api.ts';
import { notFound } from '../problem.ts';

/** Loaded when somebody first compares. */
const service = () => import('../../services/seasons/season-service.ts');

export function registerCompare(api: Api, parts: SeasonParts): void {
  api.get(
    '/api/compare',
    { config: { access: 'viewer' }, schema: { querystring: choiceSchema, response: { 200: compareAnswerSchema } } },
    async (request) => (await service()).compare(parts, request.query),
  );

  api.get(
    '/api/compare/curves',
    { config: { access: 'viewer' }, schema: { querystring: choiceSchema, response: { 200: curvesAnswerSchema } } },
    async (request) => ({ curves: await (await service()).curves(parts, request.query) }),
  );

  api.get(
    '/api/compare.csv',
    { config: { access: 'viewer' }, schema: { querystring: choiceSchema } },
    async (request, reply) => {
      const { batches } = await (await service()).compare(parts, request.query);
      const { compareCsv } = await import('../../services/seasons/compare-table.ts');
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
        .send(await (await service()).compare(parts, request.query)),
  );

  api.get(
    '/api/batches/:id/closest',
    {
      config: { access: 'viewer' },
      schema: { params: z.object({ id: z.string().min(1).max(64) }), response: { 200: closestAnswerSchema } },
    },
    async (request, reply) =>
      (await (await service()).closest(parts, request.params.id)) ?? notFound(reply, 'batch', request.params.id),
  );
}
