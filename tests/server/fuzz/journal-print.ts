/** What stands in a journal, read past the program: a print of what people keep, and how many rows tell of changes. */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { Client } from 'pg';
import Database from '../../../shared/store/sqlite-driver.ts';

/** Told by programs, as readings are; or written by watching, delivery and sign-in by themselves, or by each person about their own ways and sessions. */
const besideTables = new Set([
  ...['alarm', 'alarm_step', 'attempt', 'audit', 'lease', 'message', 'message_attempt', 'notice', 'pile_command'],
  ...['air_ahead', 'pile_view', 'session', 'notification_link', 'escalation_step', 'watch', 'worker'],
  ...['api_token', 'link', 'push_device', 'notification_preferences', 'setting'],
]);

/** Chosen by each person for themselves: in no table but `person` is there a column of this name. */
const ownColumn = 'language';

export interface JournalPrint {
  /** Tables whose content is another than when this was asked before. */
  changed(): Promise<string[]>;
  auditRows(): Promise<number>;
  close(): Promise<void>;
}

interface PrintParts {
  readonly tables: readonly string[];
  /** Something that is another once any row is. */
  printOf(table: string): Promise<string>;
  auditRows(): Promise<number>;
  close(): Promise<void>;
}

function printOver({ tables, printOf, auditRows, close }: PrintParts): JournalPrint {
  const kept = tables.filter((name) => !/^(sqlite|journal)_/.test(name) && !besideTables.has(name));
  let before = new Map<string, string>();
  return {
    async changed() {
      const now = new Map<string, string>();
      for (const table of kept) now.set(table, await printOf(table));
      const changed = kept.filter((table) => before.get(table) !== now.get(table));
      before = now;
      return changed;
    },
    auditRows,
    close,
  };
}

export function sqlitePrint(dataDir: string): JournalPrint {
  const db = new Database(join(dataDir, 'journal.db'), { readonly: true });
  const names = db.prepare<[], string>("SELECT name FROM sqlite_master WHERE type = 'table'").pluck().all();
  const reads = new Map(names.map((table) => [table, db.prepare(`SELECT * FROM ${table} ORDER BY rowid`)]));
  const audit = db.prepare<[], number>('SELECT count(*) FROM audit').pluck();
  return printOver({
    tables: names,
    printOf: async (table) =>
      createHash('sha256')
        .update(JSON.stringify(reads.get(table)?.all(), (name, value: unknown) => (name === ownColumn ? null : value)))
        .digest('hex'),
    auditRows: async () => audit.get() ?? 0,
    close: async () => void db.close(),
  });
}

export async function postgresPrint(url: string): Promise<JournalPrint> {
  const client = new Client({ connectionString: url });
  await client.connect();
  const one = async (query: string) => String(Object.values((await client.query(query)).rows[0] ?? {})[0]);
  const { rows } = await client.query<{ name: string }>(
    `SELECT table_name AS name FROM information_schema.tables WHERE table_schema = current_schema() AND table_type = 'BASE TABLE'`,
  );
  return printOver({
    tables: rows.map(({ name }) => name),
    printOf: (table) =>
      one(
        `SELECT md5(string_agg(kept, ' ' ORDER BY kept)) FROM (SELECT (to_jsonb(t) - '${ownColumn}')::text AS kept FROM "${table}" t) AS every`,
      ),
    auditRows: async () => Number(await one('SELECT count(*) FROM audit')),
    close: () => client.end(),
  });
}
