import helmet from '@fastify/helmet';
import type { FastifyInstance } from 'fastify';

const halfYearS = 15_552_000;

/** What a browser may load and send from our pages: nothing of elsewhere. */
export async function registerProtectingHeaders(app: FastifyInstance): Promise<void> {
  await app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'self'"],
        scriptSrc: ["'self'"],
        // Charts set sizes on their canvas through style attributes.
        styleSrc: ["'self'", "'unsafe-inline'"],
        // Photos are fetched with the token and shown from memory.
        imgSrc: ["'self'", 'data:', 'blob:'],
        connectSrc: ["'self'"],
        workerSrc: ["'self'"],
        objectSrc: ["'none'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
      },
    },
    strictTransportSecurity: false, // sent over TLS only, below
    referrerPolicy: { policy: 'no-referrer' },
  });
  app.addHook('onRequest', async (request, reply) => {
    if (request.protocol === 'https') reply.header('Strict-Transport-Security', `max-age=${halfYearS}`);
  });
}
