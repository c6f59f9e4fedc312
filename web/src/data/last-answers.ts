/**
 * What the server last said of its piles, kept on this device for the time when it is out of reach. It never keeps
 * anything of another person: `forgetAnswers` is called when somebody signs out, is not let in, or signs in.
 */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { createStore } from './store.ts';

const databaseName = 'branhearth-last';
const table = 'answers';
/** A pile that nobody looked at for so long is forgotten. */
const longestMs = 30 * 86_400_000;

export interface LastAnswer {
  readonly answer: unknown;
  /** By this device's clock [epoch ms]. */
  readonly saidMs: number;
}

interface Kept extends LastAnswer {
  readonly key: string;
}

/**
 * Under which name the answer to a path is kept; undefined for what is not kept. Of a chart the last one of its length
 * is kept, whenever it ended.
 */
export function keyOf(path: string): string | undefined {
  const { pathname, searchParams } = new URL(path, 'http://here');
  if (/^\/api\/(health|sites|piles)$/.test(pathname)) return pathname;
  if (pathname === '/api/probes') return searchParams.has('find') ? undefined : `${pathname}?${searchParams}`;
  if (/^\/api\/piles\/[^/]+(\/(entries|alarms|acts))?$/.test(pathname) || /^\/api\/alarms\/[^/]+$/.test(pathname)) {
    return `${pathname}?${searchParams}`;
  }
  if (!/^\/api\/piles\/[^/]+\/series$/.test(pathname)) return undefined;
  const lengthMs = Date.parse(searchParams.get('to') ?? '') - Date.parse(searchParams.get('from') ?? '');
  return `${pathname}?hours=${Math.round(lengthMs / 3_600_000)}`;
}

interface LastAnswers extends DBSchema {
  [table]: { key: string; value: Kept };
}

let opened: Promise<IDBPDatabase<LastAnswers>> | undefined;

function database(): Promise<IDBPDatabase<LastAnswers>> {
  opened ??= openDB<LastAnswers>(databaseName, 1, {
    upgrade: (made) => void made.createObjectStore(table, { keyPath: 'key' }),
  });
  return opened;
}

/** Answers that were on their way when somebody signed out belong to nobody. */
let person = 0;

/** Storage may be forbidden or full; the page then works as long as the server does. */
export async function keepAnswer(path: string, answer: unknown, askedBy: number): Promise<void> {
  const key = keyOf(path);
  if (key === undefined || askedBy !== person) return;
  try {
    const store = await database();
    if (askedBy !== person) return;
    await store.put(table, { key, answer, saidMs: Date.now() });
  } catch {
    // Nothing to show when out of reach, then.
  }
}

/** To be asked before a question is sent, and handed back with its answer. */
export const whoAsks = () => person;

async function lastAnswer(path: string): Promise<LastAnswer | undefined> {
  const key = keyOf(path);
  if (key === undefined) return undefined;
  try {
    const kept = await (await database()).get(table, key);
    return kept && Date.now() - kept.saidMs < longestMs ? kept : undefined;
  } catch {
    return undefined;
  }
}

/** Forgets everything, also what is still on its way. */
export async function forgetAnswers(): Promise<void> {
  person += 1;
  try {
    await (await database()).clear(table);
  } catch {
    // There is nothing kept, then.
  }
}

/** What is shown from memory of this device rather than from the server: by key, when it was said [epoch ms]. */
export const recalled = createStore<ReadonlyMap<string, number>>(new Map());

/** The last answer to a path, and a note that it is shown. */
export async function recallAnswer(path: string): Promise<LastAnswer | undefined> {
  const last = await lastAnswer(path);
  const key = keyOf(path);
  if (last && key !== undefined) recalled.set(new Map(recalled.get()).set(key, last.saidMs));
  return last;
}

const personKey = 'branhearth.answers-of';

/** Whose answers are kept from now on; of anybody else all is forgotten, however they went. */
export async function answersOf(personId: string): Promise<void> {
  try {
    if (localStorage.getItem(personKey) === personId) return;
    await forgetAnswers();
    localStorage.setItem(personKey, personId);
  } catch {
    await forgetAnswers();
  }
}

/** Drops what is too old to be shown. */
export async function dropOldAnswers(): Promise<void> {
  try {
    const { store, done } = (await database()).transaction(table, 'readwrite');
    for (const kept of await store.getAll()) {
      if (Date.now() - kept.saidMs >= longestMs) void store.delete(kept.key);
    }
    await done;
  } catch {
    // Nothing kept.
  }
}
