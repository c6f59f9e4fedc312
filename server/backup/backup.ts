/**
 * server/backup/backup.ts: `npm run backup -- [FILE]`: everything into one checked file, also while the house is at work.
 */
import { parseArgs } from 'node:util';
import { readConfig } from '../../shared/config.ts';
import { makeBackup } from './make-backup.ts';
import { databaseNames, sayCounts } from './manifest.ts';
import { stamp } from './restore-backup.ts';

const usage = `npm run backup -- [FILE] [--from DIR]

Writes readings, journal and photos into one file and reads it back. The house may go on working meanwhile.
FILE defaults to branhearth-<date>.tar.gz here; DIR to BRANHEARTH_DATA_DIR. A journal in PostgreSQL, photos included,
is saved by pg_dump: what lies at a server is not in the file.`;

async function main(): Promise<void> {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { from: { type: 'string' }, help: { type: 'boolean', short: 'h' } },
  });
  if (values.help) {
    console.log(usage);
    return;
  }
  const nowMs = Date.now();
  const file = positionals[0] ?? `branhearth-${stamp(nowMs)}.tar.gz`;
  const { config } = readConfig(process.env);
  const here = databaseNames.filter((name) => name !== 'journal.db' || config.JOURNAL_URL === undefined);
  const { files, counts } = await makeBackup(values.from ?? config.DATA_DIR, file, nowMs, here);
  console.log(`${file}: ${sayCounts(counts)}, ${files.length} files, read back and found whole`);
  if (config.JOURNAL_URL !== undefined) {
    console.log(
      'NOT in it: the journal and its photos, which are in PostgreSQL. Save them too, after this:\n' +
        '  pg_dump --format=custom --file=journal.dump "$BRANHEARTH_JOURNAL_URL"',
    );
  }
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
