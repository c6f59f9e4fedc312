/** `npm run backup -- [FILE]`: everything into one checked file, also while the server is at work. */
import { readFile } from 'node:fs/promises';
import { parseArgs } from 'node:util';
import { z } from 'zod';
import { type Config, readConfig } from '../../shared/config.ts';
import { makeBackup } from './make-backup.ts';
import { type DatabaseName, databaseNames, sayCounts } from './manifest.ts';
import { stamp } from './stamp.ts';

const usage = `npm run backup -- [FILE] [--from DIR]

Writes readings, journal and photos into one file and reads it back. The server may go on working meanwhile.
FILE defaults to branhearth-<date>.tar.gz here; DIR to BRANHEARTH_DATA_DIR. What lies at a server is not in the file: a
journal in PostgreSQL, photos included, is saved by pg_dump, readings in InfluxDB by InfluxDB or npm run move-readings.`;

async function main(): Promise<void> {
  process.umask(0o077); // what is kept holds hashes of passwords and keys: only its owner may read it
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
  const atServers = serversOf(config);
  const here = databaseNames.filter((name) => !atServers.some(({ instead }) => instead === name));
  if (here.length > 0) {
    const { files, counts } = await makeBackup(values.from ?? config.DATA_DIR, file, nowMs, {
      databases: here,
      version: await programVersion(),
    });
    console.log(`${file}: ${sayCounts(counts)}, ${files.length} files, read back and found whole`);
  } else {
    console.log('Nothing is written: readings and journal are both at servers');
  }
  for (const { what, how } of atServers) console.log(`NOT in it: ${what}. Save them too, after this:\n  ${how}`);
}

/** Compiled files stand in .build/server/backup, so the package lies three folders up. */
async function programVersion(): Promise<string> {
  const text = await readFile(new URL('../../../package.json', import.meta.url), 'utf8');
  return z.object({ version: z.string() }).parse(JSON.parse(text)).version;
}

interface AtServer {
  readonly instead: DatabaseName;
  readonly what: string;
  readonly how: string;
}

function serversOf({ JOURNAL_URL, READINGS_URL, READINGS_BUCKET }: Config): AtServer[] {
  const servers: AtServer[] = [];
  if (JOURNAL_URL !== undefined) {
    servers.push({
      instead: 'journal.db',
      what: 'the journal and its photos, which are in PostgreSQL',
      how: 'pg_dump --format=custom --file=journal.dump "$BRANHEARTH_JOURNAL_URL"',
    });
  }
  if (READINGS_URL !== undefined) {
    servers.push({
      instead: 'readings.db',
      what: `the readings, which are in InfluxDB (${READINGS_BUCKET} at ${READINGS_URL})`,
      how: 'with the backup of InfluxDB itself, or into a folder that this command can save: npm run move-readings -- --from "$BRANHEARTH_READINGS_URL" --to FOLDER',
    });
  }
  return servers;
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
