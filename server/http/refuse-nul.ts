/**
 * No text of a request holds the sign NUL: PostgreSQL takes no text with it, and nothing that a person writes has one.
 */
import type { FastifyInstance } from 'fastify';
import { message } from '../../shared/messages/message.ts';
import { Refusal } from '../refusal.ts';
import { holdsNul } from '../services/holds-nul.ts';

export function refuseNul(app: FastifyInstance): void {
  app.addHook('preValidation', async ({ params, query, body }) => {
    if ([params, query, body].some(holdsNul)) throw new Refusal(400, message('problem.holds-nul'));
  });
}
