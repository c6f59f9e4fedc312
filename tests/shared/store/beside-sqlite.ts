/**
 * A journal's file, as a program of somebody else reaches it.
 */
import Database from '../../../shared/store/sqlite-driver.ts';
import { type Column, keyNames } from './damage.ts';
import type { Beside } from './journal-damage-contract.ts';

export function besideSqlite(path: string): Beside {
  const withDb = <T>(run: (db: Database.Database) => T): T => {
    const db = new Database(path, { timeout: 5_000 });
    db.pragma('foreign_keys = OFF');
    try {
      return run(db);
    } finally {
      db.close();
    }
  };
  return {
    anyType: true,
    columns: async () =>
      withDb((db) => {
        const tables = db.prepare<[], string>(`SELECT name FROM sqlite_master WHERE type = 'table'`).pluck().all();
        return tables
          .filter((table) => db.prepare(`SELECT 1 FROM "${table}" LIMIT 1`).get() !== undefined)
          .flatMap((table) =>
            db
              .prepare<[], { name: string; type: string }>(`PRAGMA table_info("${table}")`)
              .all()
              .map(({ name: column, type }): Column => ({ table, column, type })),
          );
      }),
    rows: async (table) =>
      withDb((db) => {
        const order = keyNames(table).map((column) => `"${column}"`);
        return db.prepare<[], Record<string, unknown>>(`SELECT * FROM "${table}" ORDER BY ${order.join(', ')}`).all();
      }),
    set: async ({ table, column }, keys, to) =>
      withDb((db) => {
        db.exec('DROP TRIGGER IF EXISTS audit_no_update'); // damage asks nobody
        const where = Object.keys(keys)
          .map((key) => `"${key}" = ?`)
          .join(' AND ');
        const values = Object.values(keys);
        const set = (what: string) => db.prepare(`UPDATE "${table}" SET "${column}" = ${what} WHERE ${where}`);
        if ('sql' in to) set(to.sql).run(...values);
        else set('?').run(to.value, ...values);
      }),
  };
}
