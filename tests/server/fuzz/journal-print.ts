/** What stands in a journal, read past the program: a print of what people keep, and how many rows tell of changes. */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import Database from 'better-sqlite3';

/** Written by watching, delivery and sign-in by themselves, or by each person about their own ways and sessions. */
const besideTables = new Set([
  ...['alarm', 'alarm_step', 'attempt', 'audit', 'lease', 'message', 'message_attempt', 'notice', 'pile_ask'],
  ...['pile_view', 'session', 'told_link', 'turn', 'watch', 'worker'],
  ...['api_token', 'link', 'push_device', 'telling', 'setting'],
]);

export interface JournalPrint {
  /** Tables whose content is another than when this was asked before. */
  changed(): string[];
  auditRows(): number;
  close(): void;
}

export function openJournalPrint(dataDir: string): JournalPrint {
  const db = new Database(join(dataDir, 'journal.db'), { readonly: true });
  const tables = db.prepare("SELECT name FROM sqlite_master WHERE type = 'table'").all() as { name: string }[];
  const kept = tables
    .map(({ name }) => name)
    .filter((name) => !/^(sqlite|journal)_/.test(name) && !besideTables.has(name));
  const reads = kept.map((table) => [table, db.prepare(`SELECT * FROM ${table} ORDER BY rowid`)] as const);
  const audit = db.prepare('SELECT count(*) AS count FROM audit');
  let before = new Map<string, string>();
  return {
    changed() {
      const now = new Map(
        reads.map(([table, read]) => [table, createHash('sha256').update(JSON.stringify(read.all())).digest('hex')]),
      );
      const changed = [...now].filter(([table, print]) => before.get(table) !== print).map(([table]) => table);
      before = now;
      return changed;
    },
    auditRows: () => (audit.get() as { count: number }).count,
    close: () => db.close(),
  };
}
