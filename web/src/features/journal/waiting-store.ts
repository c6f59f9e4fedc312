/** Entries and photos that wait, in the browser's IndexedDB, so that they outlast the page. */
import type { WaitingEntry, WaitingStore } from './outbox.ts';

const databaseName = 'branhearth';
const entriesTable = 'waiting-entries';
const photosTable = 'waiting-photos';

function answered<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

let opened: Promise<IDBDatabase> | undefined;

function database(): Promise<IDBDatabase> {
  opened ??= new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open(databaseName, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore(entriesTable, { keyPath: 'id' });
      request.result.createObjectStore(photosTable);
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opened;
}

/** Resolves once what was written is on the disk. */
async function write(table: string, act: (store: IDBObjectStore) => IDBRequest): Promise<void> {
  const transaction = (await database()).transaction(table, 'readwrite');
  const done = new Promise<void>((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onerror = () => reject(transaction.error);
    transaction.onabort = () => reject(transaction.error);
  });
  act(transaction.objectStore(table));
  await done;
}

async function read<T>(table: string, act: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  return answered(act((await database()).transaction(table).objectStore(table)));
}

export interface KeptStore extends WaitingStore {
  putPhoto(id: string, photo: Blob): Promise<void>;
}

export const waitingStore: KeptStore = {
  async entries() {
    const all = await read<WaitingEntry[]>(entriesTable, (store) => store.getAll());
    return all
      .map((one) => ({ ...one, writer: one.writer ?? null })) // earlier pages did not write down who wrote
      .sort((one, other) => one.writtenMs - other.writtenMs);
  },
  put: (entry) => write(entriesTable, (store) => store.put(entry)),
  remove: (id) => write(entriesTable, (store) => store.delete(id)),
  photo: (id) => read<Blob | undefined>(photosTable, (store) => store.get(id)),
  putPhoto: (id, photo) => write(photosTable, (store) => store.put(photo, id)),
  removePhoto: (id) => write(photosTable, (store) => store.delete(id)),
};
