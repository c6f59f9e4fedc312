/**
 * The entries that wait on this device, as the pages follow them, and when they are sent. It never sends for anybody
 * but who is signed in just then: the server is asked first, as another page may have changed it. It never sends twice
 * at a time: the page waits for its own sending, and pages beside it for each other where they can.
 */
import type { NewEntry } from '../../../../shared/contracts/journal.ts';
import { installation } from '../../data/live/installation.ts';
import { whoWrites } from '../../data/me.ts';
import { getSession } from '../../data/session-api.ts';
import { createStore } from '../../data/store.ts';
import { newClientId } from './client-id.ts';
import { sendEntries, sendPhoto, strikeOut } from './journal-api.ts';
import { isBrokenLine, sendWaiting, type WaitingEntry } from './outbox.ts';
import { waitingStore } from './waiting-store.ts';

export interface Waiting {
  readonly entries: readonly WaitingEntry[];
  /** Counts up whenever the server took some, so that lists are fetched again. */
  readonly keptCount: number;
}

export const waiting = createStore<Waiting>({ entries: [], keptCount: 0 });

/** How long until the next try while something waits [ms]. */
const retryEveryMs = 20_000;

async function look(kept = 0): Promise<void> {
  const entries = await waitingStore.entries();
  waiting.set({ entries, keptCount: waiting.get().keptCount + kept });
}

/** Keeps an entry on this device and begins to send it. Resolves once it is kept here: nobody waits for a slow line. */
export async function writeDown(pileId: string, entry: NewEntry): Promise<WaitingEntry> {
  const id = entry.id ?? newClientId();
  const one = { id, pileId, entry: { ...entry, id }, writtenMs: Date.now(), refused: null, writer: whoWrites() };
  await keep(one);
  return one;
}

/** Takes back what was written down, wherever it got to meanwhile; out of reach that waits as an entry would. */
export const takeBack = (one: WaitingEntry): Promise<void> => keep({ ...one, takenBackAs: newClientId() });

async function keep(one: WaitingEntry): Promise<void> {
  await waitingStore.put(one);
  await look();
  startOutbox();
  void sendNow();
}

/** Whoever is signed in sends in their own name what somebody else wrote here. */
export async function takeOver(id: string): Promise<void> {
  const entry = waiting.get().entries.find((one) => one.id === id);
  const writer = whoWrites();
  if (!entry || !writer) return;
  await waitingStore.put({ ...entry, writer });
  await look();
  await sendNow();
}

/** Gives up a refused entry. */
export async function throwAway(id: string): Promise<void> {
  const entry = waiting.get().entries.find((one) => one.id === id);
  for (const photoId of entry?.entry.photoIds ?? []) await waitingStore.removePhoto(photoId);
  await waitingStore.remove(id);
  await look();
}

let sending: Promise<void> | undefined;
let again = false;

/** Sends what waits; asked while it sends, it goes once more afterwards. */
export function sendNow(): Promise<void> {
  if (sending) {
    again = true;
    return sending;
  }
  sending = inTurn(sendAll).finally(() => {
    sending = undefined;
    if (again) {
      again = false;
      void sendNow();
    }
  });
  return sending;
}

/** Web Locks exist on https pages only; without them two pages may send the same, which the server knows by its id. */
async function inTurn(act: () => Promise<void>): Promise<void> {
  const { locks } = navigator as { locks?: LockManager };
  if (!locks) return act();
  await locks.request('branhearth-outbox', act);
}

async function sendAll(): Promise<void> {
  let kept = 0;
  try {
    const { person } = await getSession();
    if (person) ({ kept } = await sendWaiting(waitingStore, { sendPhoto, sendEntries, takeBack: strikeOut }, person));
  } catch (error) {
    if (!isBrokenLine(error)) console.error(error);
  }
  await look(kept);
}

let started = false;

/** Looks for what an earlier page left behind, and sends whenever the server is within reach again. */
export function startOutbox(): void {
  if (started) return;
  started = true;
  const sendIfWaiting = () => {
    if (waiting.get().entries.some((one) => one.refused === null)) void sendNow();
  };
  void look()
    .then(sendIfWaiting)
    .catch(() => {
      // No IndexedDB here (a private window): the form says so when something is written.
    });
  addEventListener('online', sendIfWaiting);
  let wasLive = false;
  installation.follow(() => {
    const isLive = installation.get().link === 'live';
    if (isLive && !wasLive) sendIfWaiting();
    wasLive = isLive;
  });
  setInterval(sendIfWaiting, retryEveryMs);
}
