import type { FastifyReply } from 'fastify';
import { Refusal } from '../services/refusal.ts';

/** Aborted when whoever asked has gone before they were answered. */
export function whileWaitedFor(reply: FastifyReply): AbortSignal {
  const gone = new AbortController();
  reply.raw.once('close', () => {
    if (!reply.raw.writableFinished) gone.abort(new Refusal(503, 'Nobody waits for this any more.'));
  });
  return gone.signal;
}
