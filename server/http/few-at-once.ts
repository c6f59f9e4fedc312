import type { FastifyRequest } from 'fastify';
import type { Message } from '../../shared/messages/message.ts';
import { Refusal } from '../refusal.ts';

/**
 * Hooks for a route with large bodies: so many requests of one person at once, and the next is refused before its body
 * is read, as each body is held in memory until its work is done.
 */
export function fewAtOnce(most: number, busy: Message) {
  const counts = new Map<string, number>();
  const counted = new WeakSet<FastifyRequest>();
  const personOf = (request: FastifyRequest) => request.person?.id ?? '';
  return {
    onRequest: async (request: FastifyRequest) => {
      const count = counts.get(personOf(request)) ?? 0;
      if (count >= most) throw new Refusal(429, busy, { retryAfterS: 5 });
      counts.set(personOf(request), count + 1);
      counted.add(request);
    },
    onResponse: async (request: FastifyRequest) => {
      if (!counted.has(request)) return;
      const count = (counts.get(personOf(request)) ?? 1) - 1;
      if (count > 0) counts.set(personOf(request), count);
      else counts.delete(personOf(request));
    },
  };
}
