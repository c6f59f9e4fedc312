/**
 * One file that holds everything, taken while the server may be at work. It never leaves half a file under the wanted
 * name, or writes over one that is there.
 */
import { existsSync } from 'node:fs';
import { chmod, cp, mkdir, mkdtemp, open, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { create, extract } from 'tar';
import Database from '../../shared/store/sqlite-driver.ts';
import { countOf } from './counts.ts';
import {
  checkFiles,
  type DatabaseName,
  databaseNames,
  filesBelow,
  type Manifest,
  manifestName,
  ownerOnly,
  photosName,
} from './manifest.ts';

export interface BackupOptions {
  /** What lies in the data folder; a journal or readings at a server do not. */
  readonly databases?: readonly DatabaseName[];
  /** Of the program that makes it. */
  readonly version?: string;
}

export async function makeBackup(
  dataDir: string,
  file: string,
  nowMs: number,
  { databases = databaseNames, version }: BackupOptions = {},
): Promise<Manifest> {
  const target = resolve(file);
  if (existsSync(target)) throw new Error(`${file} is there already: name another file`);
  for (const name of databases) {
    if (!existsSync(join(dataDir, name)))
      throw new Error(`There is nothing to back up in ${dataDir}: it has no ${name}`);
  }
  await mkdir(dirname(target), { recursive: true });
  // Beside the target, so that the last step is a rename within one file system.
  const scratch = await mkdtemp(join(dirname(target), '.branhearth-backup-'));
  try {
    const whole = join(scratch, 'whole');
    await mkdir(whole);
    // The journal first: readings that came after it are read again at the next start, the other way round they were lost to it.
    for (const name of databases) snapshot(join(dataDir, name), join(whole, name));
    // Photos go with their journal: at a server they lie in it.
    if (databases.includes('journal.db') && existsSync(join(dataDir, photosName))) {
      await cp(join(dataDir, photosName), join(whole, photosName), { recursive: true });
    }
    const files = await filesBelow(whole);
    const madeAt = new Date(nowMs).toISOString();
    const counts = await countOf(whole);
    const manifest: Manifest = { program: 'branhearth', format: 1, ...(version && { version }), madeAt, files, counts };
    await writeFile(join(whole, manifestName), JSON.stringify(manifest, null, 2));
    const packed = join(scratch, 'packed');
    await create({ file: packed, cwd: whole, gzip: true, portable: true }, [
      manifestName,
      ...files.map(({ name }) => name),
    ]);
    await proveReadable(packed, join(scratch, 'again'), manifest);
    await chmod(packed, ownerOnly); // it holds hashes of passwords and keys
    await syncFile(packed);
    await rename(packed, target);
    return manifest;
  } finally {
    await rm(scratch, { recursive: true, force: true });
  }
}

/** A consistent copy of a database that others may be writing to, compacted and checked. */
function snapshot(from: string, to: string): void {
  const source = new Database(from, { readonly: true, fileMustExist: true });
  try {
    source.prepare('VACUUM INTO ?').run(to);
  } finally {
    source.close();
  }
  const copy = new Database(to, { readonly: true });
  try {
    const found = copy.pragma('integrity_check', { simple: true });
    if (found !== 'ok') throw new Error(`${from} is damaged: ${String(found)}`);
  } finally {
    copy.close();
  }
}

async function proveReadable(packed: string, folder: string, manifest: Manifest): Promise<void> {
  await mkdir(folder);
  await extract({ file: packed, cwd: folder, strict: true });
  checkFiles(await filesBelow(folder), manifest.files);
}

async function syncFile(path: string): Promise<void> {
  const handle = await open(path, 'r+');
  await handle.sync();
  await handle.close();
}
