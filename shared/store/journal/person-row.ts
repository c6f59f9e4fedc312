import type { PersonRecord } from '../people-journal.ts';
import type { JournalTables } from './tables.ts';

export function personFromRow(row: JournalTables['person']): PersonRecord {
  return {
    id: row.id,
    name: row.name,
    nameKey: row.name_key,
    role: row.role,
    passwordHash: row.password_hash,
    createdAtMs: row.created_at_ms,
  };
}
