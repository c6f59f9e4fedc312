import { epochMsSchema } from '../../epoch.ts';
import { roles } from '../../person.ts';
import type { PersonRecord } from '../people-journal.ts';
import type { JournalBase, JournalDb, JournalTransaction } from './journal-base.ts';
import type { RowPlan, RowReader } from './read-rows.ts';
import type { JournalTables } from './tables.ts';

/** Nothing stands in for a damaged column: whoever cannot be read as they were written does not get in. */
export const personPlan: RowPlan<'person', PersonRecord> = {
  table: 'person',
  toRecord: (row) => ({
    id: row.id,
    name: row.name,
    nameKey: row.name_key,
    role: row.role,
    passwordHash: row.password_hash,
    createdAtMs: row.created_at_ms,
    language: row.language,
  }),
};

type Reading = Pick<JournalTransaction, 'selectFrom'>;

export interface Owners {
  readonly readable: readonly PersonRecord[];
  /** Damaged rows of people who are or may be owners. */
  readonly unreadableCount: number;
}

export async function ownersOf(rows: RowReader, db: Reading): Promise<Owners> {
  const people = await db.selectFrom('person').selectAll().execute();
  const readable: PersonRecord[] = [];
  let unreadableCount = 0;
  for (const row of people) {
    if (!mayBeOwner(row)) continue;
    const person = rows.ifReadable(personPlan, row);
    if (person) readable.push(person);
    else unreadableCount += 1;
  }
  return { readable, unreadableCount };
}

/** Whoever's role or end cannot be read may have been one. */
function mayBeOwner({ role, removed_at_ms: removedAtMs }: JournalTables['person']): boolean {
  const isRemoved = epochMsSchema.safeParse(removedAtMs).success;
  return !isRemoved && (role === 'owner' || !roles.includes(role));
}

export async function presentPerson(base: JournalBase, db: JournalDb, id: string): Promise<PersonRecord | undefined> {
  const row = await db
    .selectFrom('person')
    .selectAll()
    .where('id', '=', id)
    .where('removed_at_ms', 'is', null)
    .executeTakeFirst();
  return base.rows.ifReadable(personPlan, row);
}
