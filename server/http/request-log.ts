/**
 * One line for each request, of those who look for a fault: at the usual level a log has what happened to piles, and an attack
 * cannot fill it.
 */
import type { FastifyInstance } from 'fastify';

export function registerRequestLog(app: FastifyInstance): void {
  app.addHook('onResponse', async (request, reply) => {
    request.log.debug(
      { req: request, statusCode: reply.statusCode, tookMs: Math.round(reply.elapsedTime) },
      'request answered',
    );
  });
}
