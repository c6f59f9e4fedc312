import type { FastifyRequest } from 'fastify';

/** Who asks, by the session they signed in with. The guard lets nobody else through to routes marked `inPerson`. */
export function inPerson(request: FastifyRequest) {
  const { person, session } = request;
  if (!person || !session) throw new Error('a route for people in person was reached without a session');
  return { ...person, session };
}
