/** A session as its person, or an owner, sees it. */
import type { StandingSession } from '../../../shared/contracts/people.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { SessionRecord } from '../../../shared/store/people-journal.ts';

/** @param asking The session that asks. */
export function sessionView(session: SessionRecord, asking: SessionRecord | null): StandingSession {
  return {
    id: session.id,
    isThis: session.id === asking?.id,
    since: toInstant(session.madeAtMs),
    seenAt: toInstant(session.seenAtMs),
    endsAt: toInstant(session.endsAtMs),
    address: session.address,
    agent: session.agent,
  };
}
