/**
 * server/people/signed-by.ts: whose name stands beside what is written.
 */
import type { FastifyRequest } from 'fastify';

/**
 * The name of whoever is known by name; what they wrote themselves only where nobody is: on a machine without an owner, and
 * with the token of the environment.
 */
export function signedBy({ person }: Pick<FastifyRequest, 'person'>, written: string | undefined): string | undefined {
  const isAccount = person?.via === 'session' || (person?.via === 'token' && person.id !== 'api-token');
  return isAccount ? person.name : written;
}
