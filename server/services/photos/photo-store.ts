/**
 * Where pictures are kept: beside the journal as files, or in it when it is at a server.
 *
 * In PostgreSQL every process reaches them, and whoever dumps the database saves them with the entries that name them.
 */
import type { Journal, PictureSize } from '../../../shared/store/journal.ts';
import type { DrawnPhoto } from './draw-photo.ts';

export interface PhotoStore {
  keep(digest: string, photo: DrawnPhoto): Promise<void>;
  /** Undefined when there is no such picture. */
  read(digest: string, size: PictureSize): Promise<Buffer | undefined>;
  /** Takes away pictures that no photo has any more. */
  remove(digests: readonly string[]): Promise<void>;
}

export function photosInJournal(journal: Pick<Journal, 'pictures'>): PhotoStore {
  return {
    keep: (digest, { whole, small }) => journal.pictures.keep(digest, { whole, small }),
    async read(digest, size) {
      const bytes = await journal.pictures.read(digest, size);
      return bytes && Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    },
    remove: async () => {}, // they went with their photos
  };
}
