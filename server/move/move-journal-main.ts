/** `npm run move-journal -- --from DIR --to URL`: a journal into PostgreSQL, proved by counts. */
import { parseArgs } from 'node:util';
import { readConfig } from '../../shared/config.ts';
import { moveJournal } from './move-journal.ts';

const usage = `npm run move-journal -- [--from DIR] [--to postgres://...]

Copies the journal of a data folder, with its photos, into an empty database in PostgreSQL, and compares. Stop the server
first. DIR defaults to BRANHEARTH_DATA_DIR, the address to BRANHEARTH_JOURNAL_URL. The folder stays as it is; readings
are moved by npm run move-readings. Ends with 0 only when both have the same; else nothing was moved.`;

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: { from: { type: 'string' }, to: { type: 'string' }, help: { type: 'boolean', short: 'h' } },
  });
  const { config } = readConfig(process.env);
  const to = values.to ?? config.JOURNAL_URL;
  if (values.help || to === undefined) {
    console.log(usage);
    process.exitCode = values.help ? 0 : 2;
    return;
  }
  const moved = await moveJournal(values.from ?? config.DATA_DIR, to);
  for (const { table, there, here } of moved) if (there > 0) console.log(`${table}: ${there} there, ${here} here`);
  console.log('Both have the same. The folder is as it was: keep it until you have looked at the pages.');
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
