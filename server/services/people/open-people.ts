/** Everything about people, put together. */
import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../../shared/clock.ts';
import type { Config } from '../../../shared/config.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { ApiTokens } from './api-tokens.ts';
import { AuditTrail } from './audit-trail.ts';
import { Links } from './links.ts';
import { type PeopleKnown, peopleKnown } from './people-known.ts';
import { Sessions } from './sessions.ts';
import { SignIn } from './sign-in.ts';

export interface People {
  readonly known: PeopleKnown;
  readonly sessions: Sessions;
  readonly signIn: SignIn;
  readonly links: Links;
  readonly tokens: ApiTokens;
  readonly trail: AuditTrail;
  /** The machine's clock, by which sessions, links and tokens run out. */
  readonly nowMs: () => number;
  /** After a change of who may do what. */
  changed(): void;
}

export interface PeopleParts {
  readonly journal: Journal;
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly config: Pick<Config, 'API_TOKEN' | 'TRUSTED_PROXIES' | 'PLAIN_HTTP'>;
  readonly nowMs?: (() => number) | undefined;
}

export function openPeople({ journal, clock, log, config, nowMs = Date.now }: PeopleParts): People {
  const trail = new AuditTrail(journal, clock, log);
  const sessions = new Sessions({ journal, log, nowMs });
  const tokens = new ApiTokens(journal, log, nowMs);
  const behindProxy = config.TRUSTED_PROXIES !== undefined || config.PLAIN_HTTP === 'behind-a-proxy';
  return {
    known: peopleKnown({ journal, sessions, tokens, nowMs, token: config.API_TOKEN, behindProxy }),
    sessions,
    signIn: new SignIn({ journal, sessions, trail, log, nowMs }),
    links: new Links({ journal, sessions, trail, nowMs, hasToken: config.API_TOKEN !== undefined }),
    tokens,
    trail,
    nowMs,
    changed() {
      tokens.changed();
      sessions.changed();
    },
  };
}
