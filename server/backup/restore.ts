/** `npm run restore -- FILE`: puts a backup back and proves that it is all there. */
import { parseArgs } from 'node:util';
import { readConfig } from '../../shared/config.ts';
import { sayCounts } from './manifest.ts';
import { restoreBackup } from './restore-backup.ts';

const usage = `npm run restore -- FILE [--into DIR] [--replace]

Puts a backup into an empty data folder (BRANHEARTH_DATA_DIR, or DIR). Data that lies there is moved aside, never
deleted, and only when you say --replace. Stop the server first.`;

async function main(): Promise<void> {
  process.umask(0o077); // what is kept holds hashes of passwords and keys: only its owner may read it
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { into: { type: 'string' }, replace: { type: 'boolean' }, help: { type: 'boolean', short: 'h' } },
  });
  const [file] = positionals;
  if (values.help || file === undefined) {
    console.log(usage);
    process.exitCode = values.help ? 0 : 2;
    return;
  }
  const folder = values.into ?? readConfig(process.env).config.DATA_DIR;
  const { manifest, movedTo } = await restoreBackup(file, folder, values.replace ?? false, Date.now());
  console.log(
    `${folder} holds what was backed up on ${manifest.madeAt}${manifest.version ? ` by ${manifest.version}` : ''}: ${sayCounts(manifest.counts)}, each file as it was written`,
  );
  if (movedTo) console.log(`What lay there before is in ${movedTo}`);
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
