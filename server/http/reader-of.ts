/** Answers in the words of whoever asks: in their language, and in the unit that a program asks for by `?unit=F`. */
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { metric, plainReader, type Reader } from '../../shared/messages/format.ts';
import { inWordsOf } from '../../shared/messages/in-words.ts';
import { fallback, languageFor, languagesAccepted } from '../../shared/messages/language.ts';
import { languagesKnown } from '../../shared/messages/render.ts';

/**
 * A person reads what they chose, else what their browser asks for. A token is a program, whose owner's choice is not its own.
 * @returns Moments in UTC.
 */
export function readerOf(request: FastifyRequest, nowMs: number): Reader {
  const chosen = request.person?.via === 'session' ? request.person.language : undefined;
  const accepted = languagesAccepted(request.headers['accept-language']);
  const units = asksForFahrenheit(request.query) ? ({ ...metric, temperature: 'F' } as const) : metric;
  const language = languageFor(chosen === undefined ? accepted : [chosen, ...accepted], languagesKnown);
  return { ...plainReader(nowMs, units), language };
}

/**
 * Views word what they hold for the plain reader; for any other it is worded again, from the messages beside it.
 * @param nowMs For moments in sentences.
 */
export function registerReaders(app: FastifyInstance, nowMs: () => number): void {
  app.addHook('preSerialization', async (request, reply, payload) => {
    const reader = readerOf(request, nowMs());
    if (languagesKnown.length > 1) reply.header('Vary', 'Accept-Language, Cookie');
    if (reader.language === fallback && reader.units.temperature === 'C') return payload;
    return inWordsOf(payload, reader);
  });
}

const asksForFahrenheit = (query: unknown): boolean =>
  typeof query === 'object' && query !== null && 'unit' in query && query.unit === 'F';
