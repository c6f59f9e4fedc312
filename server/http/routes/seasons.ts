/** Seasons: named, compared with each other, and filled up with batches of before. */
import { z } from 'zod';
import {
  differenceAnswerSchema,
  differenceQuestionSchema,
  earlierAnswerSchema,
  earlierBatchSchema,
  seasonIdSchema,
  seasonNameSchema,
  seasonsAnswerSchema,
} from '../../../shared/contracts/seasons.ts';
import type { BringInParts } from '../../services/seasons/bring-in.ts';
import type { SeasonParts } from '../../services/seasons/compared-batches.ts';
import { nameSeason } from '../../services/seasons/season-names.ts';
import type { Api } from '../api.ts';
import { notFound, refuseField } from '../problem.ts';

/** Loaded when somebody first asks for seasons. */
const service = () => import('../../services/seasons/season-service.ts');

export function registerSeasons(api: Api, parts: SeasonParts & BringInParts): void {
  api.get(
    '/api/seasons/difference',
    {
      config: { access: 'viewer' },
      schema: { querystring: differenceQuestionSchema, response: { 200: differenceAnswerSchema } },
    },
    async (request) => (await service()).groupDifference(parts, request.query),
  );

  api.get(
    '/api/seasons',
    { config: { access: 'viewer' }, schema: { response: { 200: seasonsAnswerSchema } } },
    async () => ({
      seasons: await (await service()).seasons(parts),
    }),
  );

  api.put(
    '/api/seasons/:id',
    {
      config: { access: 'keeper', does: 'audit.did.named-season' },
      schema: {
        params: z.object({ id: seasonIdSchema }),
        body: seasonNameSchema,
        response: { 200: seasonsAnswerSchema },
      },
    },
    async (request) => {
      await nameSeason(parts.journal, request.params.id, request.body.name);
      return { seasons: await (await service()).seasons(parts) };
    },
  );

  api.post(
    '/api/seasons/earlier',
    {
      config: { access: 'keeper', does: 'audit.did.brought-in-earlier-batch' },
      schema: { body: earlierBatchSchema, response: { 200: earlierAnswerSchema, 201: earlierAnswerSchema } },
    },
    async (request, reply) => {
      const { bringIn } = await import('../../services/seasons/bring-in.ts');
      const answer = await bringIn(parts, request.body);
      if (!answer) return notFound(reply, 'site', request.body.site);
      const said = answer.messages.problem;
      if (request.body.keep && said !== null) {
        return refuseField(reply, 422, { pointer: '/table', said });
      }
      return reply.code(answer.batchId === null ? 200 : 201).send(answer);
    },
  );
}
