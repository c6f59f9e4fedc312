/** The sentences of an answer in the unit that a program asks for by `?unit=F`; their messages stay as they are. */
import type { FastifyInstance } from 'fastify';
import { metric } from '../../shared/messages/format.ts';
import { inWordsOf } from '../../shared/messages/in-words.ts';

/** @param nowMs For moments in sentences. */
export function registerReaderUnits(app: FastifyInstance, nowMs: () => number): void {
  app.addHook('preSerialization', async (request, _reply, payload) => {
    if (!asksForFahrenheit(request.query)) return payload;
    const units = { ...metric, temperature: 'F' } as const;
    return inWordsOf(payload, { language: 'en', timeZone: 'UTC', nowMs: nowMs(), units });
  });
}

const asksForFahrenheit = (query: unknown): boolean =>
  typeof query === 'object' && query !== null && 'unit' in query && query.unit === 'F';
