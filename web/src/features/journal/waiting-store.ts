/** Entries and photos that wait, in the browser's IndexedDB, so that they outlast the page. */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { WaitingEntry, WaitingStore } from './outbox.ts';

const databaseName = 'branhearth';
const entriesTable = 'waiting-entries';
const photosTable = 'waiting-photos';

interface Waiting extends DBSchema {
  [entriesTable]: { key: string; value: WaitingEntry };
  [photosTable]: { key: string; value: Blob };
}

let opened: Promise<IDBPDatabase<Waiting>> | undefined;

function database(): Promise<IDBPDatabase<Waiting>> {
  opened ??= openDB<Waiting>(databaseName, 1, {
    upgrade(made) {
      made.createObjectStore(entriesTable, { keyPath: 'id' });
      made.createObjectStore(photosTable);
    },
  });
  return opened;
}

export interface KeptStore extends WaitingStore {
  putPhoto(id: string, photo: Blob): Promise<void>;
}

/** A write resolves once it is on the disk. */
export const waitingStore: KeptStore = {
  async entries() {
    const all = await (await database()).getAll(entriesTable);
    return all
      .map((one) => ({ ...one, writer: one.writer ?? null })) // earlier pages did not write down who wrote
      .sort((one, other) => one.writtenMs - other.writtenMs);
  },
  entry: async (id) => (await database()).get(entriesTable, id),
  put: async (entry) => void (await (await database()).put(entriesTable, entry)),
  remove: async (id) => (await database()).delete(entriesTable, id),
  photo: async (id) => (await database()).get(photosTable, id),
  putPhoto: async (id, photo) => void (await (await database()).put(photosTable, photo, id)),
  removePhoto: async (id) => (await database()).delete(photosTable, id),
};
