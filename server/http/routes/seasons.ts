/** Batches laid beside each other. */
import { z } from 'zod';
import {
  choiceSchema,
  closestAnswerSchema,
  compareAnswerSchema,
  curvesAnswerSchema,
  differenceAnswerSchema,
  differenceQuestionSchema,
  earlierAnswerSchema,
  earlierBatchSchema,
  seasonIdSchema,
  seasonNameSchema,
  seasonsAnswerSchema,
} from '../../../shared/contracts/seasons.ts';
import { type BringInParts, bringIn } from '../../services/seasons/bring-in.ts';
import { compareCsv } from '../../services/seasons/compare-table.ts';
import type { SeasonParts } from '../../services/seasons/compared-batches.ts';
import { nameSeason } from '../../services/seasons/season-names.ts';
import { closest, compare, curves, groupDifference, seasons } from '../../services/seasons/season-service.ts';
import type { Api } from '../api.ts';
import { notFound, sendProblem } from '../problem.ts';

export function registerSeasons(api: Api, parts: SeasonParts & BringInParts): void {
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
    '/api/seasons/difference',
    {
      config: { access: 'viewer' },
      schema: { querystring: differenceQuestionSchema, response: { 200: differenceAnswerSchema } },
    },
    async (request) => groupDifference(parts, request.query),
  );

  api.get(
    '/api/seasons',
    { config: { access: 'viewer' }, schema: { response: { 200: seasonsAnswerSchema } } },
    async () => ({
      seasons: await seasons(parts),
    }),
  );

  api.put(
    '/api/seasons/:id',
    {
      config: { access: 'keeper', does: 'named a season' },
      schema: {
        params: z.object({ id: seasonIdSchema }),
        body: seasonNameSchema,
        response: { 200: seasonsAnswerSchema },
      },
    },
    async (request) => {
      await nameSeason(parts.journal, request.params.id, request.body.name);
      return { seasons: await seasons(parts) };
    },
  );

  api.get(
    '/api/batches/:id/closest',
    {
      config: { access: 'viewer' },
      schema: { params: z.object({ id: z.string().min(1).max(64) }), response: { 200: closestAnswerSchema } },
    },
    async (request, reply) => (await closest(parts, request.params.id)) ?? notFound(reply, 'batch', request.params.id),
  );

  api.post(
    '/api/seasons/earlier',
    {
      config: { access: 'keeper', does: 'brought in an earlier batch' },
      schema: { body: earlierBatchSchema, response: { 200: earlierAnswerSchema, 201: earlierAnswerSchema } },
    },
    async (request, reply) => {
      const answer = await bringIn(parts, request.body);
      if (!answer) return notFound(reply, 'site', request.body.site);
      if (request.body.keep && answer.problem !== null) {
        return sendProblem(reply, 422, answer.problem, { errors: [{ pointer: '/table', detail: answer.problem }] });
      }
      return reply.code(answer.batchId === null ? 200 : 201).send(answer);
    },
  );
}
