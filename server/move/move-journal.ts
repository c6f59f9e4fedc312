/**
 * A journal with its photos out of a data folder into an empty one in PostgreSQL. It never writes into a journal that
 * holds anything, or half of it: all is one transaction.
 */

import { existsSync } from 'node:fs';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { Client } from 'pg';
import { openPostgresJournal } from '../../shared/store/journal/postgres-journal.ts';
import { openSqliteJournal } from '../../shared/store/journal/sqlite-journal.ts';
import Database from '../../shared/store/sqlite-driver.ts';

export interface MovedTable {
  readonly table: string;
  readonly there: number;
  readonly here: number;
}

/** Of one process or of several, and made anew by whoever opens the journal. */
const leftOut = new Set(['worker', 'lease', 'pile_view', 'pile_command']);
/** PostgreSQL takes 65,535 parameters in one statement. */
const mostParameters = 30_000;

export async function moveJournal(dataDir: string, url: string): Promise<MovedTable[]> {
  const path = join(dataDir, 'journal.db');
  if (!existsSync(path)) throw new Error(`There is no journal in ${dataDir}: it has no journal.db`);
  // Both are brought to the tables of today first; this also refuses a folder that a server has open.
  await (await openSqliteJournal(path)).close();
  await (await openPostgresJournal(url)).close();
  const from = new Database(path, { readonly: true });
  const to = new Client({ connectionString: url });
  to.on('error', () => {});
  await to.connect();
  try {
    await to.query('BEGIN');
    const moved = await moveTables(from, to);
    moved.push(await movePictures(join(dataDir, 'photos'), to));
    const wrong = moved.find(({ there, here }) => there !== here);
    if (wrong)
      throw new Error(`${wrong.table} has ${wrong.there} rows there and ${wrong.here} here: nothing was moved`);
    await to.query('COMMIT');
    return moved;
  } catch (error) {
    await to.query('ROLLBACK').catch(() => undefined);
    throw error;
  } finally {
    await to.end();
    from.close();
  }
}

async function moveTables(from: Database.Database, to: Client): Promise<MovedTable[]> {
  const moved: MovedTable[] = [];
  for (const table of inOrder(from)) {
    const held = await countOf(to, table);
    if (held > 0) throw new Error(`The journal in PostgreSQL must be empty: its table ${table} has ${held} rows`);
    const rows = from.prepare<[], Record<string, unknown>>(`SELECT * FROM "${table}"`).all();
    await insert(to, table, rows);
    moved.push({ table, there: rows.length, here: await countOf(to, table) });
  }
  return moved;
}

/** A table after those it refers to. */
function inOrder(db: Database.Database): string[] {
  const all = db
    .prepare<[], string>(
      `SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name`,
    )
    .pluck()
    .all()
    .filter((name) => !name.startsWith('journal_migration') && !leftOut.has(name));
  const ordered: string[] = [];
  const visit = (name: string) => {
    if (ordered.includes(name)) return;
    const refers = db.prepare<[], { table: string }>(`PRAGMA foreign_key_list("${name}")`).all();
    for (const { table } of refers) if (table !== name) visit(table);
    ordered.push(name);
  };
  for (const name of all) visit(name);
  return ordered;
}

async function insert(to: Client, table: string, rows: readonly Record<string, unknown>[]): Promise<void> {
  const columns = Object.keys(rows[0] ?? {});
  const atOnce = Math.max(1, Math.floor(mostParameters / Math.max(1, columns.length)));
  const names = columns.map((column) => `"${column}"`).join(', ');
  for (let first = 0; first < rows.length; first += atOnce) {
    const page = rows.slice(first, first + atOnce);
    const places = page.map(
      (_, row) => `(${columns.map((__, column) => `$${row * columns.length + column + 1}`).join(', ')})`,
    );
    const values = page.flatMap((row) => columns.map((column) => row[column]));
    await to.query(`INSERT INTO "${table}" (${names}) VALUES ${places.join(', ')}`, values);
  }
}

async function movePictures(folder: string, to: Client): Promise<MovedTable> {
  const names = existsSync(folder) ? await readdir(folder, { recursive: true }) : [];
  let there = 0;
  for (const name of names) {
    const found = /([0-9a-f]{64})(-small)?\.jpg$/.exec(name);
    if (!found) continue;
    there += 1;
    await to.query('INSERT INTO picture (digest, size, bytes) VALUES ($1, $2, $3)', [
      found[1],
      found[2] ? 'small' : 'whole',
      await readFile(join(folder, name)),
    ]);
  }
  return { table: 'pictures of photos', there, here: await countOf(to, 'picture') };
}

async function countOf(to: Client, table: string): Promise<number> {
  const { rows } = await to.query<{ count: string }>(`SELECT count(*) AS count FROM "${table}"`);
  return Number(rows[0]?.count);
}
