/** What devices of other kinds say, how it is read, and what could not be used. */
import { z } from 'zod';
import { foreignMessagesAnswerSchema, refusalsAnswerSchema } from '../../../shared/contracts/ingest.ts';
import { type MappingInput, mappingsAnswerSchema, mappingTrialSchema } from '../../../shared/contracts/mappings.ts';
import { ask } from './client.ts';

const anything = z.unknown();
const pathOf = (id: string) => `/api/mappings/${encodeURIComponent(id)}`;

export const listenTo = (filter: string, minutes: number) =>
  ask(anything, '/api/ingest/listen', { method: 'POST', body: { filter, minutes } });
export const getForeign = () => ask(foreignMessagesAnswerSchema, '/api/ingest/foreign');
export const tryMapping = (mapping: MappingInput) =>
  ask(mappingTrialSchema, '/api/mappings/try', { method: 'POST', body: mapping });
export const getMappings = () => ask(mappingsAnswerSchema, '/api/mappings');
export const saveMapping = (mapping: MappingInput) => ask(anything, '/api/mappings', { method: 'POST', body: mapping });
export const changeMapping = (id: string, mapping: MappingInput) =>
  ask(anything, pathOf(id), { method: 'PUT', body: mapping });
export const removeMapping = (id: string) => ask(anything, pathOf(id), { method: 'DELETE' });
export const getRefusals = () => ask(refusalsAnswerSchema, '/api/ingest/refusals');
