/** Who sits here, and leaving. */
import { z } from 'zod';
import { readingSchema, sessionAnswerSchema } from '../../../shared/contracts/people.ts';
import { ask } from './client.ts';

export const getSession = () => ask(sessionAnswerSchema, '/api/session', { patienceMs: 8_000 });
export const endThisSession = () => ask(z.undefined(), '/api/session', { method: 'DELETE' });
export const chooseLanguage = (language: string | null) =>
  ask(readingSchema, '/api/me/reading', { method: 'PUT', body: { language } });
