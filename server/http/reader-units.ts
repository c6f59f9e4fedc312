/** The sentences of an answer in the unit that a program asks for by `?unit=F`; their messages stay as they are. */
import type { FastifyInstance } from 'fastify';
import { metric, plainReader } from '../../shared/messages/format.ts';
import { inWordsOf } from '../../shared/messages/in-words.ts';

/** @param nowMs For moments in sentences. */
export function registerReaderUnits(app: FastifyInstance, nowMs: () => number): void {
  app.addHook('preSerialization', async (request, _reply, payload) => {
    if (!asksForFahrenheit(request.query)) return payload;
    return inWordsOf(payload, plainReader(nowMs(), { ...metric, temperature: 'F' }));
  });
}

const asksForFahrenheit = (query: unknown): boolean =>
  typeof query === 'object' && query !== null && 'unit' in query && query.unit === 'F';
