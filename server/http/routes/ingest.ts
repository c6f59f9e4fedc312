/** What came in and was refused, and what comes in on topics that are not ours. */
import { z } from 'zod';
import type { Ingest } from '../../../ingest/ingest.ts';
import { filterProblem } from '../../../ingest/mapping/topic-filter.ts';
import { foreignMessagesAnswerSchema, refusalsAnswerSchema } from '../../../shared/contracts/ingest.ts';
import type { Api } from '../api.ts';
import { refuseField } from '../problem.ts';

const listenSchema = z.object({
  filter: z.string().min(1).max(512),
  minutes: z.number().int().min(1).max(60).default(10),
});

interface IngestParts {
  readonly ingest: Ingest;
}

export function registerIngest(api: Api, parts: IngestParts): void {
  api.get(
    '/api/ingest/refusals',
    { config: { access: 'viewer' }, schema: { response: { 200: refusalsAnswerSchema } } },
    async () => parts.ingest.refusals(),
  );

  api.get(
    '/api/ingest/foreign',
    {
      config: { access: 'viewer' },
      schema: {
        querystring: z.object({ filter: z.string().min(1).max(512).optional() }),
        response: { 200: foreignMessagesAnswerSchema },
      },
    },
    async (request) => ({ messages: parts.ingest.foreignMessages(request.query.filter) }),
  );

  api.post(
    '/api/ingest/listen',
    {
      config: { access: 'owner', does: false },
      schema: { body: listenSchema, response: { 200: foreignMessagesAnswerSchema } },
    },
    async (request, reply) => {
      const problem = filterProblem(request.body.filter);
      if (problem !== undefined) {
        return refuseField(reply, 422, { pointer: '/filter', said: problem });
      }
      await parts.ingest.listen(request.body.filter, request.body.minutes * 60_000);
      return { messages: parts.ingest.foreignMessages(request.body.filter) };
    },
  );
}
