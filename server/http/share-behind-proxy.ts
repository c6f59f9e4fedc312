/**
 * Behind a proxy all connections come from one address, so there each visitor has a share of the requests at work.
 */
import { normalizeIP } from '@fastify/rate-limit';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { message } from '../../shared/messages/message.ts';
import { Refusal } from '../refusal.ts';

/** @param most Requests of one visitor at work at once, open streams included. */
export function shareBehindProxy(app: FastifyInstance, most: number): void {
  const atWork = new Map<string, number>();
  const counted = new WeakMap<FastifyRequest, string>();
  app.addHook('onRequest', async (request, reply) => {
    // Whoever comes straight to us is held by their connections.
    if (request.ip === request.raw.socket.remoteAddress) return;
    const network = normalizeIP(request.ip, 64);
    const count = atWork.get(network) ?? 0;
    if (count >= most) throw new Refusal(429, message('problem.requests-at-work'), { retryAfterS: 2 });
    atWork.set(network, count + 1);
    counted.set(request, network);
    // Also for answers that leave past the framework, as streams do.
    reply.raw.once('close', () => end(request));
  });
  app.addHook('onResponse', async (request) => end(request));

  const end = (request: FastifyRequest) => {
    const network = counted.get(request);
    if (network === undefined || !counted.delete(request)) return;
    const count = (atWork.get(network) ?? 1) - 1;
    if (count > 0) atWork.set(network, count);
    else atWork.delete(network);
  };
}
