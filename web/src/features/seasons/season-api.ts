/** The routes of comparing, one function each. */
import {
  closestAnswerSchema,
  compareAnswerSchema,
  curvesAnswerSchema,
  type EarlierBatch,
  earlierAnswerSchema,
  seasonsAnswerSchema,
} from '../../../../shared/contracts/seasons.ts';
import { ask } from '../../data/client.ts';

export const getCompared = (query: string) => ask(compareAnswerSchema, `/api/compare?${query}`);
export const getCurves = (query: string) => ask(curvesAnswerSchema, `/api/compare/curves?${query}`);
export const getClosest = (batchId: string) =>
  ask(closestAnswerSchema, `/api/batches/${encodeURIComponent(batchId)}/closest`);
export const nameSeason = (id: string, name: string | null) =>
  ask(seasonsAnswerSchema, `/api/seasons/${encodeURIComponent(id)}`, { method: 'PUT', body: { name } });
export const bringEarlier = (batch: EarlierBatch) =>
  ask(earlierAnswerSchema, '/api/seasons/earlier', { method: 'POST', body: batch });
