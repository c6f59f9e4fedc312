/**
 * A journal in PostgreSQL, as a program of somebody else reaches it.
 */
import type { Client } from 'pg';
import { type Column, keyNames } from './damage.ts';
import type { Beside } from './journal-damage-contract.ts';

export function besidePostgres(client: Client): Beside {
  return {
    anyType: false,
    async columns() {
      const { rows } = await client.query<Column>(
        `SELECT c.table_name AS "table", c.column_name AS "column", c.data_type AS type FROM information_schema.columns c
         JOIN information_schema.tables t USING (table_schema, table_name)
         WHERE c.table_schema = current_schema() AND t.table_type = 'BASE TABLE' ORDER BY 1, c.ordinal_position`,
      );
      const filled = new Set<string>();
      for (const table of new Set(rows.map((row) => row.table))) {
        const { rowCount } = await client.query(`SELECT 1 FROM "${table}" LIMIT 1`);
        if (rowCount) filled.add(table);
      }
      return rows.filter(({ table }) => filled.has(table));
    },
    async rows(table) {
      const order = keyNames(table).map((column) => `"${column}"`);
      const { rows } = await client.query<Record<string, unknown>>(
        `SELECT * FROM "${table}" ORDER BY ${order.join(', ')}`,
      );
      return rows;
    },
    async set({ table, column }, keys, to) {
      if (table === 'audit') await client.query('ALTER TABLE audit DISABLE TRIGGER USER'); // damage asks nobody
      const values = Object.values(keys);
      const where = Object.keys(keys).map((key, index) => `"${key}" = $${index + 1}`);
      const isSql = 'sql' in to;
      const set = isSql ? to.sql : `$${values.length + 1}`;
      await client.query(
        `UPDATE "${table}" SET "${column}" = ${set} WHERE ${where.join(' AND ')}`,
        isSql ? values : [...values, to.value],
      );
    },
  };
}
