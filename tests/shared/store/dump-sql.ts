/**
 * A database as SQL that makes it again, to freeze what a released version wrote.
 *
 * When a migration is added: dump a file of the version before it into versions/, and never edit it again.
 */
import type { Database } from 'better-sqlite3';

interface Made {
  name: string;
  type: string;
  sql: string;
}

/** Statements that made the tables, and then what hangs on them: indexes and triggers. */
export function schemaOf(db: Database): string[] {
  const made = db
    .prepare<[], Made>(
      `SELECT name, type, sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY type = 'table' DESC, type, rowid`,
    )
    .all();
  return made.map(({ sql }) => `${sql};`);
}

/** Called by hand when a version is frozen. @public */
export function dumpSql(db: Database): string {
  const tables = db.prepare<[], string>(`SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY rowid`).pluck();
  const rows = tables.all().flatMap((table) =>
    db
      .prepare<[], unknown[]>(`SELECT * FROM "${table}"`)
      .raw()
      .all()
      .map((row) => `INSERT INTO "${table}" VALUES (${row.map(literal).join(', ')});`),
  );
  const version = db.pragma('user_version', { simple: true });
  return [...schemaOf(db), ...rows, `PRAGMA user_version = ${version};`, ''].join('\n');
}

function literal(value: unknown): string {
  if (value === null) return 'NULL';
  if (Buffer.isBuffer(value)) return `x'${value.toString('hex')}'`;
  if (typeof value === 'number') return String(value);
  return `'${String(value).replaceAll("'", "''")}'`;
}
