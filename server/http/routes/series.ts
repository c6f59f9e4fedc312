/**
 * A pile's readings over time, with the band that was expected. It never sends more than `points` buckets per position,
 * however long the range.
 */
import { seriesAnswerSchema, seriesQuerySchema } from '../../../shared/contracts/series.ts';
import type { Installation } from '../../app/installation.ts';
import { pileSeries } from '../../services/views/pile-series.ts';
import type { Api } from '../api.ts';
import { notFound, sendProblem } from '../problem.ts';
import { pileParams } from './piles.ts';

const longestMs = 20 * 366 * 86_400_000;

export function registerSeries(api: Api, installation: Installation): void {
  api.get(
    '/api/piles/:id/series',
    {
      config: { access: 'viewer' },
      schema: { params: pileParams, querystring: seriesQuerySchema, response: { 200: seriesAnswerSchema } },
    },
    async (request, reply) => {
      const one = installation.watch.get(request.params.id);
      if (!one) return notFound(reply, 'pile', request.params.id);
      const toMs = request.query.to ?? installation.clock.nowMs();
      const fromMs = request.query.from ?? one.batch?.startedAtMs ?? one.pile.createdAtMs;
      if (!(fromMs < toMs && toMs - fromMs <= longestMs)) {
        return sendProblem(reply, 422, 'The range must begin before it ends and be shorter than 20 years.', {
          errors: [{ pointer: '/from', detail: 'must lie before "to"' }],
        });
      }
      const answer = await pileSeries(installation, one, {
        fromMs,
        toMs,
        points: request.query.points,
        expected: request.query.expected,
      });
      // Tens of thousands of numbers straight from the store: its types are the check here.
      return reply.serializer(JSON.stringify).type('application/json; charset=utf-8').send(answer);
    },
  );
}
