/** Who changed what; added to and read, and nothing else. */
import { sql } from 'kysely';
import { z } from 'zod';
import type { AuditRecord, PeopleJournal } from '../people-journal.ts';
import type { JournalBase } from './journal-base.ts';
import type { RowPlan } from './read-rows.ts';

export function journalAudit(base: JournalBase): PeopleJournal['audit'] {
  return {
    add: (record) =>
      base.write(async (transaction) => {
        await transaction
          .insertInto('audit')
          .values({
            id: record.id,
            at_ms: record.atMs,
            person_id: record.personId,
            person_name: record.personName,
            via: record.via,
            what: record.what,
            subject: record.subject,
            address: record.address,
            before: asText(record.before),
            after: asText(record.after),
          })
          .execute();
      }),

    list: ({ personId, words, fromMs, toMs, limit, after }) =>
      base.read(async (db) => {
        let rows = db.selectFrom('audit').selectAll();
        if (personId !== undefined) rows = rows.where('person_id', '=', personId);
        if (fromMs !== undefined) rows = rows.where('at_ms', '>=', fromMs);
        if (toMs !== undefined) rows = rows.where('at_ms', '<', toMs);
        if (after !== undefined) rows = rows.where('id', '<', after);
        if (words !== undefined) {
          const pattern = `%${likeLiteral(words.toLowerCase())}%`;
          const holds = (column: 'what' | 'subject') =>
            sql<boolean>`lower(coalesce(${sql.ref(column)}, '')) LIKE ${pattern} ESCAPE '\\'`;
          rows = rows.where((either) => either.or([holds('what'), holds('subject')]));
        }
        return base.rows.all(auditPlan, await rows.orderBy('id', 'desc').limit(limit).execute());
      }),
  };
}

const asText = (data: unknown): string | null => (data === null ? null : JSON.stringify(data));

/** "%" and "_" are letters to us, and wildcards to the database. */
const likeLiteral = (text: string) => text.replace(/[\\%_]/g, '\\$&');

const unreadable = 'cannot be read any more';

/** A line whose details cannot be read any more stays in the trail. */
export const auditPlan: RowPlan<'audit', AuditRecord> = {
  table: 'audit',
  toRecord: (row, json) => ({
    id: row.id,
    atMs: row.at_ms,
    personId: row.person_id,
    personName: row.person_name,
    via: row.via,
    what: row.what,
    subject: row.subject,
    address: row.address,
    before: row.before === null ? null : json('before', row.before, z.json(), unreadable),
    after: row.after === null ? null : json('after', row.after, z.json(), unreadable),
  }),
  standIns: () => ({ before: JSON.stringify(unreadable), after: JSON.stringify(unreadable) }),
};
