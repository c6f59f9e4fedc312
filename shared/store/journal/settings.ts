/** Single values under a key. */
import type { z } from 'zod';
import type { Journal } from '../journal.ts';
import { UnreadableRowError } from '../unreadable.ts';
import { type JournalBase, type JournalDb, setSetting } from './journal-base.ts';

export function journalSettings(base: JournalBase): Journal['settings'] {
  return {
    get: (key) => base.read((db) => settingValue(db, key)),
    set: (key, value) => base.write((transaction) => setSetting(transaction, key, value)),
    read: <T>(key: string, schema: z.ZodType<T>) =>
      base.read(async (db) => {
        const text = await settingValue(db, key);
        return text === undefined ? undefined : base.rows.value('setting', key, 'value', text, schema);
      }),
    write: (key, value) => base.write((transaction) => setSetting(transaction, key, JSON.stringify(value))),
    readUnder: <T>(start: string, schema: z.ZodType<T>) =>
      base.read(async (db) => {
        const rows = await db
          .selectFrom('setting')
          .selectAll()
          .where('key', 'like', `${start}%`)
          .orderBy('key')
          .execute();
        return rows.flatMap(({ key, value: text }) => readableOf(base, key, text, schema));
      }),
    remove: (key) =>
      base.write(async (transaction) => {
        await transaction.deleteFrom('setting').where('key', '=', key).execute();
      }),
  };
}

function readableOf<T>(
  base: JournalBase,
  key: string,
  text: string,
  schema: z.ZodType<T>,
): { key: string; value: T }[] {
  try {
    return [{ key, value: base.rows.value('setting', key, 'value', text, schema) }];
  } catch (error) {
    if (error instanceof UnreadableRowError) return [];
    throw error;
  }
}

async function settingValue(db: JournalDb, key: string): Promise<string | undefined> {
  const row = await db.selectFrom('setting').select('value').where('key', '=', key).executeTakeFirst();
  return row?.value;
}
