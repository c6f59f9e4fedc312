/**
 * No text of a request holds the sign NUL: PostgreSQL takes no text with it, and nothing that a person writes has one.
 */
import type { FastifyInstance } from 'fastify';
import { message } from '../../shared/messages/message.ts';
import { Refusal } from '../services/refusal.ts';

/** Looks through whatever was sent, however deep it is nested. */
function holdsNul(sent: unknown): boolean {
  const waiting = [sent];
  while (waiting.length > 0) {
    const part = waiting.pop();
    if (typeof part === 'string' && part.includes('\u0000')) return true;
    if (typeof part !== 'object' || part === null || part instanceof Uint8Array) continue;
    for (const [name, value] of Object.entries(part)) {
      if (name.includes('\u0000')) return true;
      if (value !== undefined) waiting.push(value);
    }
  }
  return false;
}

export function refuseNul(app: FastifyInstance): void {
  app.addHook('preValidation', async ({ params, query, body }) => {
    if ([params, query, body].some(holdsNul)) throw new Refusal(400, message('problem.holds-nul'));
  });
}
