/**
 * server/people/people-known.ts: the ways in which the house knows who asks.
 *
 * Takes:  the token of the environment, when one is set.
 * Gives:  an owner for that token; without one, an owner for requests made on this machine itself.
 * Never:  compares secrets in a way whose time tells how much was right.
 */
import { createHash, timingSafeEqual } from 'node:crypto';
import type { Person } from '../../shared/person.ts';
import { isFromHere } from '../http/from-here.ts';
import type { PeopleKnown } from '../http/guard.ts';

const digest = (text: string) => createHash('sha256').update(text).digest();

const tokenOwner: Person = { id: 'api-token', name: 'API token', role: 'owner', via: 'token' };
const personHere: Person = { id: 'here', name: 'This machine', role: 'owner', via: 'here' };

export function peopleKnown(token: string | undefined): PeopleKnown {
  const wanted = token === undefined ? undefined : digest(token);
  return {
    async personOf(request) {
      if (!wanted) return isFromHere(request) ? personHere : null;
      const given = /^Bearer (.+)$/i.exec(request.headers.authorization ?? '')?.[1];
      return given !== undefined && timingSafeEqual(digest(given), wanted) ? tokenOwner : null;
    },
    onlyHere: () => wanted === undefined,
  };
}
