/** The ways in which the server knows who asks. */
import type { FastifyRequest } from 'fastify';
import { namelessNames } from '../../../shared/messages/nameless.ts';
import type { Person } from '../../../shared/person.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { SessionRecord } from '../../../shared/store/people-journal.ts';
import type { ApiTokens } from './api-tokens.ts';
import { readCookie } from './cookies.ts';
import { isFromHere } from './from-here.ts';
import { Remembered } from './remembered.ts';
import { isSame } from './secrets.ts';
import type { Sessions } from './sessions.ts';

declare module 'fastify' {
  interface FastifyRequest {
    /** Who asks; null for somebody unknown, who reaches open routes only. */
    person: Person | null;
    /** The session by which they are known, when it is one. */
    session: SessionRecord | null;
    /** The token of a person by which they are known, when it is one. */
    tokenId: string | null;
  }
}

export interface PeopleKnown {
  /** Who the request shows itself to be by session or token, or by where it was made; sets `request.session` and `request.tokenId` too. */
  personOf(request: FastifyRequest): Promise<Person | null>;
  /** Whether this machine itself acts as owner for now. */
  hereActs(): Promise<boolean>;
}

const tokenOwner: Person = { id: 'api-token', name: namelessNames['api-token'], role: 'owner', via: 'token' };
const personHere: Person = { id: 'here', name: namelessNames.here, role: 'owner', via: 'here' };

export interface KnownParts {
  readonly journal: Journal;
  readonly sessions: Sessions;
  readonly tokens: ApiTokens;
  readonly nowMs: () => number;
  /** The token of the environment. */
  readonly token: string | undefined;
  /** Whether a proxy stands before us: then nobody can be distinguished from somebody on this machine. */
  readonly behindProxy: boolean;
}

export function peopleKnown(parts: KnownParts): PeopleKnown {
  const { journal, sessions, tokens, token, behindProxy } = parts;
  const noOwner = new Remembered<true>(parts.nowMs);
  let hasOwner = false;

  /** An owner stays, once there is one; that there is none is asked anew, as another process may let one in. */
  const lacksOwner = async () => {
    if (hasOwner) return false;
    const lacks = await noOwner.get('', async () => ((await journal.people.hasOwner()) ? undefined : true));
    hasOwner = lacks === undefined;
    return !hasOwner;
  };
  sessions.whenChanged(() => noOwner.clear());
  const hereActs = async () => token === undefined && !behindProxy && (await lacksOwner());

  return {
    async personOf(request: FastifyRequest) {
      const bearer = /^Bearer +([^ ].*)$/i.exec(request.headers.authorization ?? '')?.[1];
      if (bearer !== undefined) {
        if (token !== undefined && isSame(bearer, token)) return tokenOwner;
        const known = await tokens.personOf(bearer);
        request.tokenId = known?.tokenId ?? null;
        return known?.person ?? null;
      }
      const cookie = readCookie(request, 'session');
      const known = cookie === undefined ? undefined : await sessions.find(cookie);
      if (known) {
        const { id, name, role, language } = known.person;
        request.session = known.session;
        return { id, name, role, via: 'session', ...(language !== null && { language }) };
      }
      return isFromHere(request) && (await hereActs()) ? personHere : null;
    },
    hereActs,
  };
}
