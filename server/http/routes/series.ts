/**
 * A pile's readings over time, with the band that was expected. It never sends more than `points` buckets per position,
 * however long the range.
 */
import type { Clock } from '../../../shared/clock.ts';
import { seriesAnswerSchema, seriesQuerySchema } from '../../../shared/contracts/series.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import { pileSeries } from '../../services/views/pile-series.ts';
import type { Api } from '../api.ts';
import { notFound, refuseField } from '../problem.ts';
import { pileParams } from './piles.ts';

const longestMs = 20 * 366 * 86_400_000;

interface SeriesParts {
  readonly watch: PilePort;
  readonly clock: Clock;
  readonly journal: Journal;
  readonly readings: ReadingsStore;
}

export function registerSeries(api: Api, { watch, clock, journal, readings }: SeriesParts): void {
  api.get(
    '/api/piles/:id/series',
    {
      config: { access: 'viewer' },
      schema: { params: pileParams, querystring: seriesQuerySchema, response: { 200: seriesAnswerSchema } },
    },
    async (request, reply) => {
      const one = watch.get(request.params.id);
      if (!one) return notFound(reply, 'pile', request.params.id);
      const toMs = request.query.to ?? clock.nowMs();
      const fromMs = request.query.from ?? one.batch?.startedAtMs ?? one.pile.createdAtMs;
      if (!(fromMs < toMs && toMs - fromMs <= longestMs)) {
        return refuseField(reply, 422, { pointer: '/from', said: message('problem.range') });
      }
      const answer = await pileSeries({ journal, readings }, one, {
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
