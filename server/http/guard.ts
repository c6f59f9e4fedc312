/** Who a request comes from, and whether that is enough for the route it asks for. */
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { type Message, message } from '../../shared/messages/message.ts';
import { type Access, isAllowed, type Role } from '../../shared/person.ts';
import type { PeopleKnown } from '../services/people/people-known.ts';
import { fromPage } from './from-page.ts';
import { sendProblem } from './problem.ts';

const whoMay: Readonly<Record<Role, Message>> = {
  owner: message('problem.owners-only'),
  keeper: message('problem.keepers-only'),
  viewer: message('problem.members-only'),
};

/** @param publicUrl Where people reach us, when that is configured. */
export function registerGuard(app: FastifyInstance, people: PeopleKnown, publicUrl: string | undefined): void {
  app.decorateRequest('person', null);
  app.decorateRequest('session', null);
  app.decorateRequest('tokenId', null);
  app.addHook('onRequest', async (request, reply) => {
    const access = accessOf(request);
    request.person = await people.personOf(request);
    if (isForged(request, access, publicUrl)) {
      return sendProblem(reply, 403, message('problem.from-elsewhere'));
    }
    if (access === 'open') return;
    if (isAllowed(request.person?.role, access)) {
      // A token that could make tokens would outlive its own end.
      if (!request.routeOptions.config.inPerson || request.session) return;
      return sendProblem(reply, 403, message('problem.in-person-only'));
    }
    if (request.person) return sendProblem(reply, 403, whoMay[access]);
    return (await people.hereActs()) ? refuseElsewhere(reply) : refuseUnknown(reply);
  });
}

/** An address under /api/ that nothing answers is kept from the unknown too, so that they cannot sound us out. */
function accessOf(request: FastifyRequest): Access {
  if (!request.is404) return request.routeOptions.config.access ?? 'owner';
  return /^\/(api|metrics)(\/|\?|$)/.test(request.url) ? 'viewer' : 'open';
}

/** Whether the browser may have been led here by another site. A token is never sent by itself, so it needs no such care. */
function isForged(request: FastifyRequest, access: Access, publicUrl: string | undefined): boolean {
  const { person, method } = request;
  if (method === 'GET' || method === 'HEAD' || person?.via === 'token') return false;
  const from = fromPage(request, publicUrl);
  if (person?.via === 'session') return from !== 'own';
  return from === 'other' && (person !== null || (access === 'open' && !request.routeOptions.config.ownSecret));
}

function refuseUnknown(reply: FastifyReply) {
  reply.header('WWW-Authenticate', 'Bearer realm="branhearth"');
  return sendProblem(reply, 401, message('problem.who-are-you'));
}

function refuseElsewhere(reply: FastifyReply) {
  return sendProblem(reply, 403, message('problem.no-owner-yet'));
}
