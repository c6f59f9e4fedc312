/** The way back from an update: what an earlier version wrote is saved before this one changes its tables. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { FastifyBaseLogger } from 'fastify';
import { StoreError } from '../../shared/errors.ts';
import { holdFile } from '../../shared/store/hold-file.ts';
import { olderFiles } from '../../shared/store/open/older-files.ts';
import { databaseNames } from './manifest.ts';
import { stamp } from './stamp.ts';

export interface BeforeMigration {
  readonly dataDir: string;
  /** Where backups are kept. */
  readonly folder: string;
  readonly version: string;
  readonly nowMs: number;
  readonly log: Pick<FastifyBaseLogger, 'warn'>;
}

/**
 * @returns the file it wrote, or undefined where nothing is older.
 * @throws {StoreError} One line: nothing is changed before it is saved.
 */
export async function backUpBeforeMigration(parts: BeforeMigration): Promise<string | undefined> {
  const { dataDir, folder, version, nowMs, log } = parts;
  const older = olderFiles(dataDir);
  if (older.length === 0) return undefined;
  const held = databaseNames.filter((name) => existsSync(join(dataDir, name)));
  // Whoever has it open is named at once, and not after a backup in vain.
  for (const name of held) holdFile(join(dataDir, name)).release();
  const file = join(folder, `before-${version}-${stamp(nowMs)}.tar.gz`);
  try {
    const { makeBackup } = await import('./make-backup.ts'); // most starts find nothing older
    await makeBackup(dataDir, file, nowMs, { version, databases: held });
  } catch (cause) {
    throw new StoreError(
      `Cannot bring ${older.join(' and ')} to the tables of ${version} as they must be backed up first: ${cause instanceof Error ? cause.message : cause} (to go on without, move nothing: back up ${dataDir} yourself and set BRANHEARTH_BACKUPS=0)`,
      { cause },
    );
  }
  log.warn(
    { file },
    `${older.join(' and ')} were written by an earlier version and are now brought to ${version}; the way back is ${file}, with \`npm run restore -- ${file} --replace\` under that version`,
  );
  return file;
}
