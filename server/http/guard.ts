/**
 * server/http/guard.ts: who may speak to the API.
 *
 * Takes:  the token, when one is set.
 * Gives:  401 for a request under /api/ or /metrics without the right token; 403 for one that another web page made.
 * Never:  compares secrets in a way whose time tells how much was right.
 */
import { createHash, timingSafeEqual } from 'node:crypto';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { isLoopback } from '../../shared/config.ts';
import { sendProblem } from './problem.ts';

const digest = (text: string) => createHash('sha256').update(text).digest();

export function registerGuard(app: FastifyInstance, token: string | undefined): void {
  const wanted = token === undefined ? undefined : digest(token);

  app.addHook('onRequest', async (request, reply) => {
    if (!isGuarded(request.url)) return;
    if (wanted) {
      const given = /^Bearer (.+)$/i.exec(request.headers.authorization ?? '')?.[1];
      if (given === undefined || !timingSafeEqual(digest(given), wanted)) {
        reply.header('WWW-Authenticate', 'Bearer realm="branhearth"');
        return sendProblem(reply, 401, 'Send the API token as "Authorization: Bearer …".');
      }
      return;
    }
    // Without a token only this machine may speak: a page elsewhere could otherwise reach us through the
    // grower's own browser, by a rebound name or a cross-site form.
    if (!hasLoopbackName(request) || isFromAnotherPage(request)) {
      return sendProblem(reply, 403, 'Without an API token only pages and programs of this machine are answered.');
    }
  });
}

function isGuarded(url: string): boolean {
  const path = url.split('?', 1)[0] ?? '';
  return (path.startsWith('/api/') || path === '/metrics') && path !== '/api/health';
}

function hasLoopbackName(request: FastifyRequest): boolean {
  return isLoopback(request.hostname.replace(/^\[|\]$/g, ''));
}

function isFromAnotherPage(request: FastifyRequest): boolean {
  const { origin } = request.headers;
  if (request.headers['sec-fetch-site'] === 'cross-site') return true;
  return (
    origin !== undefined && (!URL.canParse(origin) || !isLoopback(new URL(origin).hostname.replace(/^\[|\]$/g, '')))
  );
}
