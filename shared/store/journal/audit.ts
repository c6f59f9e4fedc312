/** Who changed what; added to and read, and nothing else. */
import { sql } from 'kysely';
import { z } from 'zod';
import type { AuditRecord, PeopleJournal } from '../people-journal.ts';
import type { JournalBase } from './journal-base.ts';
import { messageText, readMessageText } from './message-text.ts';
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
            person_name: record.personName ?? nobody,
            via: record.via,
            what: messageText(record.what),
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
          const text = words.text.toLowerCase();
          const codes = words.codes.map((code) => holds('what', `{"code":"${code}"`));
          // Rows of before codes hold words.
          const said = sql<boolean>`${holds('what', text)} AND what NOT LIKE '{%'`;
          rows = rows.where((either) => either.or([holds('subject', text), said, ...codes]));
        }
        return base.rows.all(auditPlan, await rows.orderBy('id', 'desc').limit(limit).execute());
      }),
  };
}

const holds = (column: 'what' | 'subject', text: string) =>
  sql<boolean>`lower(coalesce(${sql.ref(column)}, '')) LIKE ${`%${likeLiteral(text)}%`} ESCAPE '\\'`;

/** In the column for a name, which somebody unknown has not. */
const nobody = '';

const asText = (data: unknown): string | null => (data === null ? null : JSON.stringify(data));

/** "%" and "_" are letters to us, and wildcards to the database. */
const likeLiteral = (text: string) => text.replace(/[\\%_]/g, '\\$&');

const unreadable = { unreadable: true };

/** A line whose details cannot be read any more stays in the trail. */
export const auditPlan: RowPlan<'audit', AuditRecord> = {
  table: 'audit',
  toRecord: (row, json) => ({
    id: row.id,
    atMs: row.at_ms,
    personId: row.person_id,
    personName: row.person_name === nobody ? null : row.person_name,
    via: row.via,
    what: readMessageText(json, 'what', row.what),
    subject: row.subject,
    address: row.address,
    before: row.before === null ? null : json('before', row.before, z.json(), unreadable),
    after: row.after === null ? null : json('after', row.after, z.json(), unreadable),
  }),
  standIns: () => ({ before: JSON.stringify(unreadable), after: JSON.stringify(unreadable) }),
};
