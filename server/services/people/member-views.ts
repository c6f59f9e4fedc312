import type { Member } from '../../../shared/contracts/people.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PersonRecord } from '../../../shared/store/people-journal.ts';

/** People as owners see them, each with when they were last here. */
export async function memberViews(journal: Journal, members: readonly PersonRecord[]): Promise<Member[]> {
  const sessions = await journal.sessions.list();
  return members.map(({ id, name, role, createdAtMs }) => {
    const seen = sessions.filter(({ personId }) => personId === id).map(({ seenAtMs }) => seenAtMs);
    const seenAt = seen.length === 0 ? null : toInstant(Math.max(...seen));
    return { id, name, role, since: toInstant(createdAtMs), seenAt };
  });
}
