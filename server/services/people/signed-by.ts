/** Whose name stands beside what is written. */
import type { FastifyRequest } from 'fastify';
import { namelessIds } from '../../../shared/person.ts';

/**
 * The name of whoever is known by name; what they wrote themselves only where nobody is: on a machine without an owner, and
 * with the token of the environment.
 */
export function signedBy({ person }: Pick<FastifyRequest, 'person'>, written: string | undefined): string | undefined {
  return person && !namelessIds.includes(person.id) ? person.name : written;
}
