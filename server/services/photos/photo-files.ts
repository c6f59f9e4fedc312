/**
 * The pictures beside the journal, as files named after what was sent. It never lets half a file stand under a
 * picture's name, also when the power goes.
 */
import { mkdir, open, readFile, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { StoreError } from '../../../shared/errors.ts';
import type { PictureSize } from '../../../shared/store/journal.ts';
import type { DrawnPhoto } from './draw-photo.ts';
import type { PhotoStore } from './photo-store.ts';

const freshMs = 60 * 60_000;

export class PhotoFiles implements PhotoStore {
  readonly #folder: string;
  readonly #partFolder: string;
  #next = 0;

  /** @param folder Made when the first picture comes. */
  constructor(folder: string) {
    this.#folder = folder;
    this.#partFolder = `${folder}.part`;
  }

  async keep(digest: string, photo: DrawnPhoto): Promise<void> {
    const folder = this.#folderOf(digest);
    await mkdir(folder, { recursive: true });
    await mkdir(this.#partFolder, { recursive: true });
    await this.#write(folder, fileName(digest, 'small'), photo.small);
    await this.#write(folder, fileName(digest, 'whole'), photo.whole);
    await syncFolder(folder);
  }

  /** Undefined when there is no such picture. */
  async read(digest: string, size: PictureSize): Promise<Buffer | undefined> {
    try {
      return await readFile(join(this.#folderOf(digest), fileName(digest, size)));
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
      throw error;
    }
  }

  /** One that was written just now may be of a photo that is about to be kept again: it stays. */
  async remove(digests: readonly string[]): Promise<void> {
    for (const digest of digests) {
      for (const size of ['whole', 'small'] as const) {
        const path = join(this.#folderOf(digest), fileName(digest, size));
        const facts = await stat(path).catch(() => undefined);
        if (facts && Date.now() - facts.mtimeMs > freshMs) await rm(path, { force: true });
      }
    }
  }

  #folderOf(digest: string): string {
    return join(this.#folder, digest.slice(0, 2));
  }

  /** Written whole and safe under another name first: a rename is all or nothing. */
  async #write(folder: string, name: string, content: Buffer): Promise<void> {
    this.#next += 1;
    // Beside the folder, so that a copy of it taken meanwhile holds whole pictures only.
    const part = join(this.#partFolder, `${name}.${process.pid}-${this.#next}`);
    try {
      const file = await open(part, 'wx');
      try {
        await file.writeFile(content);
        await file.sync();
      } finally {
        await file.close();
      }
      await rename(part, join(folder, name));
    } catch (cause) {
      await rm(part, { force: true });
      const why = cause instanceof Error ? cause.message : String(cause);
      throw new StoreError(`Cannot keep a picture as its folder must take it: ${why}`, { cause });
    }
  }
}

function fileName(digest: string, size: PictureSize): string {
  return size === 'whole' ? `${digest}.jpg` : `${digest}-small.jpg`;
}

async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}
