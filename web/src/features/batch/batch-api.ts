/** The routes of batches, lots and readiness, one function each. */
import type { z } from 'zod';
import {
  type abandonSchema,
  type addInputSchema,
  batchDetailSchema,
  batchesAnswerSchema,
  batchPeaksAnswerSchema,
  type continueBatchSchema,
  type keepLotSchema,
  type mergeBatchesSchema,
  type NewUse,
  type outcomeSchema,
  type splitBatchSchema,
} from '../../../../shared/contracts/lineage.ts';
import { type lotChangeSchema, lotSchema, lotsAnswerSchema, type NewLot } from '../../../../shared/contracts/lots.ts';
import { readinessSchema } from '../../../../shared/contracts/readiness.ts';
import { ask } from '../../data/client.ts';

const batchPath = (id: string) => `/api/batches/${encodeURIComponent(id)}`;
const lotPath = (id: string) => `/api/lots/${encodeURIComponent(id)}`;
const changed = (path: string, body: unknown, method: 'POST' | 'PATCH' = 'POST') =>
  ask(batchDetailSchema, path, { method, body });

export const getBatches = (query: Record<string, string> = {}) =>
  ask(batchesAnswerSchema, `/api/batches?${new URLSearchParams(query)}`);
export const getBatchPeaks = () => ask(batchPeaksAnswerSchema, '/api/batches/peaks');
export const getBatch = (id: string) => ask(batchDetailSchema, batchPath(id));
export const getReadiness = (id: string) => ask(readinessSchema, `${batchPath(id)}/readiness`);

export const continueBatch = (id: string, body: z.input<typeof continueBatchSchema>) =>
  changed(`${batchPath(id)}/continue`, body);
export const splitBatch = (id: string, body: z.input<typeof splitBatchSchema>) =>
  changed(`${batchPath(id)}/split`, body);
export const mergeBatches = (body: z.input<typeof mergeBatchesSchema>) => changed('/api/batches/merge', body);
export const abandonBatch = (id: string, body: z.input<typeof abandonSchema>) =>
  changed(`${batchPath(id)}/abandon`, body);
export const writeUse = (id: string, body: NewUse) => changed(`${batchPath(id)}/uses`, body);
export const keepPart = (id: string, body: z.input<typeof keepLotSchema>) => changed(`${batchPath(id)}/keep`, body);
export const addInput = (id: string, body: z.input<typeof addInputSchema>) => changed(`${batchPath(id)}/inputs`, body);
export const withdrawInput = (id: string, flowId: string) =>
  ask(batchDetailSchema, `${batchPath(id)}/inputs/${encodeURIComponent(flowId)}`, { method: 'DELETE' });
export const sayOutcome = (id: string, body: z.input<typeof outcomeSchema>) => changed(batchPath(id), body, 'PATCH');

export const getLots = () => ask(lotsAnswerSchema, '/api/lots');
export const getLot = (id: string) => ask(lotSchema, lotPath(id));
export const makeLot = (lot: NewLot) => ask(lotSchema, '/api/lots', { method: 'POST', body: lot });
export const changeLot = (id: string, change: z.input<typeof lotChangeSchema>) =>
  ask(lotSchema, lotPath(id), { method: 'PATCH', body: change });
