/**
 * Whether whoever made a link may still let people in: asked again each time it is used, as they may have been demoted or
 * removed since by another process.
 */
import type { LinkRecord } from '../people-journal.ts';
import type { JournalTransaction } from './journal-base.ts';
import { ownersOf } from './person-row.ts';
import type { RowPlan, RowReader } from './read-rows.ts';

/** In the column for a name: the program itself, which has none. */
export const byProgram = '';

export const linkPlan: RowPlan<'link', LinkRecord> = {
  table: 'link',
  toRecord: (row) => ({
    id: row.id,
    digest: row.digest,
    kind: row.kind,
    role: row.role,
    personId: row.person_id,
    madeBy: row.made_by === byProgram ? null : row.made_by,
    madeById: row.made_by_id,
    madeAtMs: row.made_at_ms,
    endsAtMs: row.ends_at_ms,
  }),
};

/** Only owners invite. This machine acts as one while there is none; whether a token of the environment is set, others know. */
export async function mayStillInvite(
  rows: RowReader,
  db: Pick<JournalTransaction, 'selectFrom'>,
  { madeById }: Pick<LinkRecord, 'madeById'>,
): Promise<boolean> {
  if (madeById === null || madeById === 'api-token') return true;
  const { readable, unreadableCount } = await ownersOf(rows, db);
  return madeById === 'here' ? readable.length + unreadableCount === 0 : readable.some(({ id }) => id === madeById);
}
