/**
 * What the log tells of a request. It never writes down what an address asks for after "?", or a secret that is part of
 * a path: logs are read by more people than the server has.
 */
import type { FastifyRequest } from 'fastify';

/** Paths that hold a secret of their own, up to the secret. */
const secretAfter = /^(\/(?:calendar|acknowledge|links?)\/)[^/?]+/i;
/** Anything that looks like one of our secrets is so long without a break. */
const secretLength = 32;

export function loggedAddress(url: string): string {
  const [path = ''] = url.split(/[?#]/, 1);
  return path.replace(secretAfter, '$1…').replace(/[A-Za-z0-9_-]+/g, (run) => (run.length < secretLength ? run : '…'));
}

export const logSerializers = {
  req: (request: FastifyRequest) => ({
    method: request.method,
    url: loggedAddress(request.url),
    host: request.host,
    remoteAddress: request.ip,
  }),
};
