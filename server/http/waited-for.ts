import type { FastifyReply } from 'fastify';
import { message } from '../../shared/messages/message.ts';
import { Refusal } from '../refusal.ts';

/** Aborted when whoever asked has gone before they were answered. */
export function whileWaitedFor(reply: FastifyReply): AbortSignal {
  const gone = new AbortController();
  reply.raw.once('close', () => {
    if (!reply.raw.writableFinished) gone.abort(new Refusal(503, message('problem.nobody-waits')));
  });
  return gone.signal;
}
