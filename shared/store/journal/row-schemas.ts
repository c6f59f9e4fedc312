/**
 * What each column of the journal may hold. SQLite keeps any value in any column, and a file can be damaged anywhere: so
 * rows are checked as they are read, like everything else that comes from outside.
 */
import { createHash } from 'node:crypto';
import type { z } from 'zod';
import { notificationRowSchemas } from './notification-row-schemas.ts';
import { personRowSchemas } from './person-row-schemas.ts';
import { pileRowSchemas } from './pile-row-schemas.ts';
import type { JournalTables } from './tables.ts';
import { watchRowSchemas } from './watch-row-schemas.ts';

const schemas = { ...pileRowSchemas, ...watchRowSchemas, ...notificationRowSchemas, ...personRowSchemas };

/** The tables whose rows are read through here. */
export type ReadTable = keyof typeof schemas;

export const rowSchemas: { readonly [Table in ReadTable]: z.ZodType<JournalTables[Table]> } = schemas;

/** Where that is not `id`. */
const idColumns: Partial<Record<ReadTable, readonly string[]>> = {
  probe: ['site', 'probe'],
  claim: ['site', 'probe', 'from_ms'],
  batch_story: ['batch_id'],
  alarm_step: ['alarm_id', 'number'],
  watch: ['pile_id'],
  air_ahead: ['site_id'],
  message_attempt: ['message_id', 'number'],
  notification_link: ['digest'],
  notification_preferences: ['person_id'],
  escalation: ['site_id'],
  escalation_step: ['alarm_id'],
  mail_address: ['person_id', 'address'],
  attempt: ['key'],
  lease: ['site'],
  pile_view: ['pile_id'],
};

/** Their keys hold addresses or come from secrets, and what is damaged is named to everybody who may ask for health. */
const hiddenIds: ReadonlySet<ReadTable> = new Set(['notification_link', 'mail_address', 'attempt']);

/** By which columns a row is distinguished from others. */
export const keyColumns = (table: ReadTable): readonly string[] => idColumns[table] ?? ['id'];

export function rowId(table: ReadTable, row: object): string {
  const id = keyColumns(table)
    .map((column) => String((row as Record<string, unknown>)[column]))
    .join('/');
  return hiddenIds.has(table) ? createHash('sha256').update(id).digest('hex').slice(0, 12) : id;
}

export function pileOfRow(table: ReadTable, row: object): string | null {
  const { pile_id, id } = row as { pile_id?: unknown; id?: unknown };
  const pileId = table === 'pile' ? id : pile_id;
  return typeof pileId === 'string' ? pileId : null;
}
