/**
 * Puts a backup back and proves that it is all there. It never deletes or overwrites former data, or touches a folder
 * that a server has open.
 */
import { existsSync } from 'node:fs';
import { chmod, mkdir, mkdtemp, readFile, rename, rm } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { extract } from 'tar';
import { holdFile } from '../../shared/store/hold-file.ts';
import { countOf } from './counts.ts';
import {
  checkFiles,
  databaseNames,
  filesBelow,
  type Manifest,
  manifestName,
  manifestSchema,
  ownerOnly,
} from './manifest.ts';
import { stamp } from './stamp.ts';

export interface Restored {
  readonly manifest: Manifest;
  /** Where the former data folder was moved; null when there was none. */
  readonly movedTo: string | null;
}

export async function restoreBackup(file: string, dataDir: string, replace: boolean, nowMs: number): Promise<Restored> {
  const target = resolve(dataDir);
  if (!existsSync(file)) throw new Error(`There is no backup at ${file}`);
  const occupied = databaseNames.some((name) => existsSync(join(target, name)));
  if (occupied && !replace) {
    throw new Error(
      `${dataDir} holds data already: say --replace to move it aside, or name another folder with --into`,
    );
  }
  if (occupied) databaseNames.forEach(refuseWhenOpen(target));

  await mkdir(dirname(target), { recursive: true });
  const scratch = await mkdtemp(join(dirname(target), '.branhearth-restore-'));
  try {
    const whole = join(scratch, 'whole');
    await mkdir(whole);
    await unpack(file, whole);
    const manifest = manifestSchema.parse(JSON.parse(await readFile(join(whole, manifestName), 'utf8')));
    checkFiles(await filesBelow(whole), manifest.files);
    const counts = await countOf(whole);
    if (!sameCounts(manifest.counts, counts)) {
      throw new Error(`The backup says ${JSON.stringify(manifest.counts)} but holds ${JSON.stringify(counts)}`);
    }
    await rm(join(whole, manifestName));
    const held = databaseNames.filter((name) => existsSync(join(whole, name)));
    for (const name of held) await chmod(join(whole, name), ownerOnly);
    const movedTo = existsSync(target) ? `${target}-before-${stamp(nowMs)}` : null;
    if (movedTo) await rename(target, movedTo);
    await rename(whole, target);
    return { manifest, movedTo };
  } finally {
    await rm(scratch, { recursive: true, force: true });
  }
}

/** What the backup does not tell cannot be compared. */
function sameCounts(stated: Manifest['counts'], found: Manifest['counts']): boolean {
  return Object.entries(stated).every(([name, count]) => found[name as keyof typeof found] === count);
}

const refuseWhenOpen = (folder: string) => (name: string) => {
  const path = join(folder, name);
  if (existsSync(path)) holdFile(path).release();
};

async function unpack(file: string, folder: string): Promise<void> {
  try {
    await extract({ file, cwd: folder, strict: true });
  } catch (cause) {
    throw new Error(`${file} is no whole backup of Branhearth: ${cause instanceof Error ? cause.message : cause}`, {
      cause,
    });
  }
  if (!existsSync(join(folder, manifestName)))
    throw new Error(`${file} is no backup of Branhearth: it has no ${manifestName}`);
}
