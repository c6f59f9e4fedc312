/**
 * shared/store/journal/settings.ts: single values under a key.
 */
import type { Journal } from '../journal.ts';
import { type JournalBase, setSetting } from './journal-base.ts';

export function journalSettings(base: JournalBase): Journal['settings'] {
  return {
    get: (key) =>
      base.read(async (db) => {
        const row = await db.selectFrom('setting').select('value').where('key', '=', key).executeTakeFirst();
        return row?.value;
      }),

    set: (key, value) => base.write((transaction) => setSetting(transaction, key, value)),
  };
}
