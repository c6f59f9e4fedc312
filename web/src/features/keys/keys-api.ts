/** The routes of the broker's keys, one function each. */
import { z } from 'zod';
import {
  keysAnswerSchema,
  madeKeySchema,
  type NewKey,
  refusedConnectionsAnswerSchema,
} from '../../../../shared/contracts/keys.ts';
import { ask } from '../../data/client.ts';

export const getKeys = () => ask(keysAnswerSchema, '/api/keys');
export const makeKey = (key: NewKey) => ask(madeKeySchema, '/api/keys', { method: 'POST', body: key });
export const revokeKey = (id: string) => ask(z.unknown(), `/api/keys/${encodeURIComponent(id)}`, { method: 'DELETE' });
export const setAuthRule = (everyProbeNeedsAKey: boolean) =>
  ask(keysAnswerSchema, '/api/keys/rule', { method: 'PUT', body: { everyProbeNeedsAKey } });
export const getRefusedConnections = () => ask(refusedConnectionsAnswerSchema, '/api/ingest/refused-connections');
