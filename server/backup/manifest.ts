/** What a backup says of itself, so that a restore can prove itself. */
import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import { join, relative } from 'node:path';
import { z } from 'zod';

export const manifestName = 'manifest.json';
export const databaseNames = ['journal.db', 'readings.db'] as const;
export const photosName = 'photos';
/** Mode of files that nobody else on the machine is to read. */
export const ownerOnly = 0o600;

/** What of a server lies in its data folder; the rest is at servers, which have ways of their own to be saved. */
export type DatabaseName = (typeof databaseNames)[number];

export const manifestSchema = z.object({
  program: z.literal('branhearth'),
  format: z.literal(1),
  /** Of the program that made it; absent before 1.0.0. */
  version: z.string().optional(),
  madeAt: z.iso.datetime(),
  files: z.array(z.object({ name: z.string(), bytes: z.number().int(), sha256: z.string() })),
  /** Only of what it holds: a journal or readings at a server are not in it. */
  counts: z.object({
    readings: z.number().int().optional(),
    piles: z.number().int().optional(),
    batches: z.number().int().optional(),
    /** Absent in backups of earlier versions. */
    people: z.number().int().optional(),
    keys: z.number().int().optional(),
  }),
});
export type Manifest = z.infer<typeof manifestSchema>;

/** @example sayCounts({ readings: 1200, piles: 2, batches: 3 }) // => '1,200 readings, 2 piles, 3 batches' */
export function sayCounts(counts: Manifest['counts']): string {
  return (['readings', 'piles', 'batches'] as const)
    .flatMap((name) => (counts[name] === undefined ? [] : `${counts[name].toLocaleString('en')} ${name}`))
    .join(', ');
}

export type FileFacts = Manifest['files'][number];

/** Every file below a folder but the manifest, sorted by name, with its size and digest. */
export async function filesBelow(folder: string): Promise<FileFacts[]> {
  const names = (await readdir(folder, { recursive: true, withFileTypes: true }))
    .filter((entry) => entry.isFile() && entry.name !== manifestName)
    .map((entry) => relative(folder, join(entry.parentPath, entry.name)))
    .sort();
  const files: FileFacts[] = [];
  for (const name of names) {
    const path = join(folder, name);
    files.push({ name, bytes: (await stat(path)).size, sha256: await digestOf(path) });
  }
  return files;
}

async function digestOf(path: string): Promise<string> {
  const hash = createHash('sha256');
  for await (const chunk of createReadStream(path)) hash.update(chunk as Buffer);
  return hash.digest('hex');
}

/** @throws {Error} Naming the first file that is not as it was. */
export function checkFiles(found: readonly FileFacts[], expected: readonly FileFacts[]): void {
  for (const file of expected) {
    const same = found.find(({ name }) => name === file.name);
    if (!same) throw new Error(`The backup lacks ${file.name}`);
    if (same.sha256 !== file.sha256) throw new Error(`${file.name} in the backup is not as it was written`);
  }
}
