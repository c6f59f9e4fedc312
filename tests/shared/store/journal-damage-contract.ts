/**
 * What every journal must do with a row that is damaged, whichever database is behind it.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Journal } from '../../../shared/store/journal.ts';
import { UnreadableRowError } from '../../../shared/store/unreadable.ts';
import { type Column, type Damage, damagesOf, fillEveryTable, keyNames } from './damage.ts';
import { branBatch, branPile, soilBatch, tooWarm, turned } from './journal-sample.ts';

/** Reaches the same database as somebody else would. */
export interface Beside {
  /** Columns of every table that has rows. */
  columns(): Promise<Column[]>;
  /** In the order of their keys. */
  rows(table: string): Promise<Record<string, unknown>[]>;
  /** Sets a column of the row with these keys, to SQL or to a value. */
  set(damage: Column, keys: Record<string, unknown>, to: { sql: string } | { value: unknown }): Promise<void>;
  /** SQLite keeps any value in any column. */
  readonly anyType: boolean;
}

export interface DamageTests {
  open(): Promise<{ journal: Journal; beside: Beside; close(): Promise<void> }>;
}

/** Caches, of which a damaged one is made anew, and what is read beside the row schemas. */
const notRead = new Set(['watch', 'setting', 'told_link', 'journal_migration', 'journal_migration_lock']);

export const keysOf = (table: string, row: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(keyNames(table).map((column) => [column, row[column]]));

export function damageContract(name: string, { open }: DamageTests): void {
  describe(name, () => {
    let opened: Awaited<ReturnType<DamageTests['open']>>;
    beforeAll(async () => {
      opened = await open();
      await fillEveryTable(opened.journal);
    });
    afterAll(() => opened.close());

    const through = () => opened.journal.examine(async () => true);
    async function damaged(damage: Damage, run: () => Promise<void>): Promise<void> {
      const [row = {}] = await opened.beside.rows(damage.table);
      const { [damage.column]: _, ...keys } = keysOf(damage.table, row);
      await opened.beside.set(damage, keys, { sql: damage.value });
      try {
        await run();
      } finally {
        await opened.beside.set(damage, keys, { value: row[damage.column] });
      }
    }

    test('every column that is read, damaged in turn, is named as unreadable; mended, it no longer is', async () => {
      const { journal, beside } = opened;
      await through();
      expect(journal.unreadable.list()).toEqual([]);
      const columns = (await beside.columns()).filter(({ table }) => !notRead.has(table));
      const damages = damagesOf(columns, beside.anyType);
      expect(new Set(damages.map(({ table }) => table)).size).toBeGreaterThanOrEqual(20);
      for (const damage of damages) {
        await damaged(damage, async () => {
          await through();
          const where = `${damage.what} in ${damage.table}.${damage.column}`;
          expect({ where, met: journal.unreadable.list().map(({ table }) => table) }).toEqual({
            where,
            met: [damage.table],
          });
          expect(journal.unreadable.list()[0]?.column).toBe(damage.column);
        });
      }
      await through();
      expect(journal.unreadable.list()).toEqual([]);
    });

    const json = (table: string, column: string): Damage => ({
      table,
      column,
      type: 'text',
      what: 'no JSON',
      value: `'{"cut'`,
    });

    test('lists leave a damaged row out and give the others; asked for by itself, it is an error that names it', async () => {
      const { journal } = opened;
      await damaged({ ...json('batch', 'stage'), value: `'wall'` }, async () => {
        expect((await journal.batches.list()).map(({ id }) => id)).toEqual([soilBatch.id]);
        const error = await journal.batches.open(branPile.id).catch((reason: unknown) => reason);
        expect(error).toBeInstanceOf(UnreadableRowError);
        expect(String(error)).toContain(`batch "${branBatch.id}" as its column stage`);
      });
      await damaged(json('entry', 'what'), async () => {
        const read = await journal.entries.list({ pileId: branPile.id, limit: 10 });
        expect(read.map(({ id }) => id)).not.toContain(turned.id);
        expect(read).toHaveLength(2);
      });
    });

    test('a page of entries is as long as asked for while there are more, whatever cannot be read among them', async () => {
      const { journal } = opened;
      await damaged(json('entry', 'what'), async () => {
        expect(await journal.entries.list({ pileId: branPile.id, limit: 2 })).toHaveLength(2);
      });
    });

    test('a damaged recipe is as none, damaged limits are the usual ones, and an alarm keeps its state', async () => {
      const { journal } = opened;
      await damaged(json('batch', 'recipe'), async () => {
        expect(await journal.batches.open(branPile.id)).toEqual({ ...branBatch, recipe: {} });
      });
      await damaged(json('batch', 'limits'), async () => {
        expect(await journal.batches.open(branPile.id)).toEqual({ ...branBatch, limits: {} });
      });
      await damaged(json('alarm', 'machine'), async () => {
        const [alarm] = await journal.alarms.open();
        expect(alarm).toEqual(tooWarm); // it follows from the other columns
      });
    });

    test('before a damaged alarm is written anew, what stood there is kept aside', async () => {
      const { journal } = opened;
      await damaged(json('alarm', 'words'), async () => {
        const [alarm] = await journal.alarms.open();
        if (!alarm) throw new Error('no alarm');
        await journal.watch.keep({ alarms: [alarm], steps: [], watch: null });
        expect(await journal.settings.get(`set-aside/alarm/${alarm.id}`)).toContain('{\\"cut');
        expect((await journal.alarms.open())[0]?.words).toEqual(alarm.words);
      });
    });

    test('a place of the watcher that was touched is as none', async () => {
      const { journal, beside } = opened;
      const [row = {}] = await beside.rows('watch');
      const keys = keysOf('watch', row);
      const column = (name: string, type: string) => ({ table: 'watch', column: name, type });
      expect(await journal.watch.get(branPile.id)).toMatchObject({ state: {} });
      for (const value of ['{"cut', '{"judge":{"version":5}}', `${String(row.state)} `]) {
        await beside.set(column('state', 'text'), keys, { value });
        expect(await journal.watch.get(branPile.id)).toBeUndefined();
      }
      await beside.set(column('state', 'text'), keys, { value: row.state });
      await beside.set(column('through_ms', 'bigint'), keys, { value: Number(row.through_ms) + 1 });
      expect(await journal.watch.get(branPile.id)).toBeUndefined();
    });
  });
}
