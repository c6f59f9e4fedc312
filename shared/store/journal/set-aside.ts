/**
 * A row that cannot be read is about to be written anew: what stood there is kept beside it, for whoever mends things by
 * hand. It is found in the settings, under `set-aside/<table>/<id>`.
 */
import { sql } from 'kysely';
import type { JournalBase, JournalTransaction } from './journal-base.ts';
import { type ReadTable, rowId } from './row-schemas.ts';

/** @param columns By which the row is found, each with its value. Cheap while every row is whole. */
export async function setAside(
  base: JournalBase,
  transaction: JournalTransaction,
  table: ReadTable,
  columns: Readonly<Record<string, string>>,
): Promise<void> {
  const id = rowId(table, columns);
  if (!base.unreadable.has(table, id)) return;
  const wheres = Object.entries(columns).map(([column, value]) => sql`${sql.ref(column)} = ${value}`);
  const { rows } = await sql`SELECT * FROM ${sql.table(table)} WHERE ${sql.join(wheres, sql` AND `)}`.execute(
    transaction,
  );
  const [row] = rows;
  if (row === undefined) return;
  await transaction
    .insertInto('setting')
    .values({ key: `set-aside/${table}/${id}`, value: JSON.stringify(row) })
    .onConflict((conflict) => conflict.column('key').doNothing()) // what was found first says most
    .execute();
}
