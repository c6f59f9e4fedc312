/**
 * server/backup/backup.ts: `npm run backup -- [FILE]`: everything into one checked file, also while the house is at work.
 */
import { parseArgs } from 'node:util';
import { readConfig } from '../../shared/config.ts';
import { makeBackup } from './make-backup.ts';
import { stamp } from './restore-backup.ts';

const usage = `npm run backup -- [FILE] [--from DIR]

Writes readings, journal and photos into one file and reads it back. The house may go on working meanwhile.
FILE defaults to branhearth-<date>.tar.gz here; DIR to BRANHEARTH_DATA_DIR.`;

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
  const { files, counts } = await makeBackup(values.from ?? readConfig(process.env).config.DATA_DIR, file, nowMs);
  console.log(
    `${file}: ${counts.readings.toLocaleString('en')} readings, ${counts.piles} piles, ${counts.batches} batches, ${files.length} files, read back and found whole`,
  );
}

main().catch((error: unknown) => {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
});
