/**
 * server/http/guard.ts: who a request comes from, and whether that is enough for the route it asks for.
 *
 * Takes:  the house's ways of knowing people.
 * Gives:  `request.person`; 401 for somebody unknown, 403 for somebody who may not.
 */
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { type Access, isAllowed, type Person, type Role } from '../../shared/person.ts';
import { sendProblem } from './problem.ts';

declare module 'fastify' {
  interface FastifyRequest {
    /** Who asks; null for somebody unknown, who reaches open routes only. */
    person: Person | null;
  }
}

export interface PeopleKnown {
  /** Who the request shows itself to be by session or token, or by where it was made. */
  personOf(request: FastifyRequest): Promise<Person | null>;
  /** Whether this machine itself acts as owner for now. */
  onlyHere(): boolean;
}

const whoMay: Readonly<Record<Role, string>> = {
  owner: 'Only an owner may do this.',
  keeper: 'Only keepers and owners may do this.',
  viewer: 'Only people of this house may see this.',
};

export function registerGuard(app: FastifyInstance, people: PeopleKnown): void {
  app.decorateRequest('person', null);
  app.addHook('onRequest', async (request, reply) => {
    request.person = await people.personOf(request);
    const access = accessOf(request);
    if (access === 'open' || isAllowed(request.person?.role, access)) return;
    if (request.person) return sendProblem(reply, 403, whoMay[access]);
    return people.onlyHere() ? refuseElsewhere(reply) : refuseUnknown(reply);
  });
}

/** An address under /api/ that nothing answers is kept from the unknown too, so that they cannot sound us out. */
function accessOf(request: FastifyRequest): Access {
  if (!request.is404) return request.routeOptions.config.access ?? 'owner';
  return /^\/(api|metrics)(\/|\?|$)/.test(request.url) ? 'viewer' : 'open';
}

function refuseUnknown(reply: FastifyReply) {
  reply.header('WWW-Authenticate', 'Bearer realm="branhearth"');
  return sendProblem(reply, 401, 'Sign in, or send an API token as "Authorization: Bearer …".');
}

function refuseElsewhere(reply: FastifyReply) {
  return sendProblem(reply, 403, 'Without an API token only pages and programs of this machine are answered.');
}
