/**
 * Sends what waits on this device, each entry once, however often the line breaks. It never drops an entry before the
 * server has said that it has it: an answer that got lost means sending the same id again. Never sends what somebody
 * else wrote: the server would put the wrong name beside it.
 */
import type { NewEntry, QueuedAnswer, QueuedEntry } from '../../../../shared/contracts/journal.ts';
import { namelessIds } from '../../../../shared/person.ts';
import { ApiProblem, NoAnswer } from '../../data/client.ts';
import type { Writer } from '../../data/me.ts';

export interface WaitingEntry {
  readonly id: string;
  readonly pileId: string;
  readonly entry: NewEntry & { readonly id: string };
  /** When it was written, for the order [epoch ms]. */
  readonly writtenMs: number;
  /** Why the server will not have it, in its own words: '' where it gave no reason, null while it only waits. */
  readonly refused: string | null;
  /** What of it was refused, where that was not the entry itself. */
  readonly refusedPart?: 'photo';
  /** Who wrote it; null where that was not known. */
  readonly writer: Writer | null;
  /** Set once its writer takes it back: what it is struck out as on a server that has it already. */
  readonly takenBackAs?: string;
}

/** What the outbox needs of a store; all of it survives a reload. */
export interface WaitingStore {
  entries(): Promise<WaitingEntry[]>;
  entry(id: string): Promise<WaitingEntry | undefined>;
  put(entry: WaitingEntry): Promise<void>;
  remove(id: string): Promise<void>;
  /** Undefined once it was sent. */
  photo(id: string): Promise<Blob | undefined>;
  removePhoto(id: string): Promise<void>;
}

export interface Senders {
  sendPhoto(id: string, photo: Blob): Promise<void>;
  sendEntries(entries: readonly QueuedEntry[], writer: string): Promise<QueuedAnswer>;
  /** Strikes it out where the server has it; one that never arrived is nowhere then. */
  takeBack(one: WaitingEntry): Promise<void>;
}

export interface Sent {
  /** By the server, or taken back from it. */
  readonly kept: number;
  readonly refused: number;
}

/**
 * Whether an entry may be sent by whoever is there. Where nobody goes by name, an entry keeps the name it was written with, and
 * it does not matter who else nameless wrote it.
 */
export function isOf({ writer }: Pick<WaitingEntry, 'writer'>, who: Writer | null): boolean {
  if (who === null) return false;
  return writer?.id === who.id || (isNameless(who) && (writer === null || isNameless(writer)));
}

/** The name it was written under; null where nobody went by name, or it was not known. */
export function writerName({ writer }: Pick<WaitingEntry, 'writer'>): string | null {
  return writer === null || isNameless(writer) ? null : writer.name;
}

const isNameless = ({ id }: Writer): boolean => namelessIds.includes(id);

export const isTakenBack = ({ takenBackAs }: WaitingEntry): boolean => takenBackAs !== undefined;

/** Entries in one packet; the server takes up to 100. */
export const packetSize = 25;

/** @throws {NoAnswer} when the line breaks; everything not yet confirmed still waits. */
export async function sendWaiting(store: WaitingStore, senders: Senders, who: Writer): Promise<Sent> {
  const waiting = (await store.entries()).filter((one) => one.refused === null && isOf(one, who));
  const sent = { kept: 0, refused: 0 };
  for (const one of waiting.filter(isTakenBack)) await takeBack(one, store, senders, sent);
  const toSend = waiting.filter((one) => !isTakenBack(one));
  for (let from = 0; from < toSend.length; from += packetSize) {
    const packet: WaitingEntry[] = [];
    for (const one of toSend.slice(from, from + packetSize)) {
      const refusal = await sendPhotosOf(one, store, senders);
      if (refusal === null) packet.push(one);
      else {
        await refuse(one, { refused: refusal, refusedPart: 'photo' }, store, sent);
      }
    }
    if (packet.length > 0) await sendPacket(packet, store, senders, who, sent);
  }
  return sent;
}

/** Whatever the server says of one that was taken back meanwhile: its turn comes. */
async function wasTakenBack({ id }: WaitingEntry, store: WaitingStore): Promise<boolean> {
  const stands = await store.entry(id);
  return stands !== undefined && isTakenBack(stands);
}

async function refuse(
  one: WaitingEntry,
  why: Pick<WaitingEntry, 'refused' | 'refusedPart'>,
  store: WaitingStore,
  sent: { refused: number },
): Promise<void> {
  if (await wasTakenBack(one, store)) return;
  await store.put({ ...one, ...why });
  sent.refused += 1;
}

async function takeBack(
  one: WaitingEntry,
  store: WaitingStore,
  senders: Senders,
  sent: { kept: number; refused: number },
): Promise<void> {
  try {
    await senders.takeBack(one);
  } catch (error) {
    if (!isRefusal(error)) throw error;
    await store.put({ ...one, refused: error.message });
    sent.refused += 1;
    return;
  }
  for (const id of one.entry.photoIds ?? []) await store.removePhoto(id);
  await store.remove(one.id);
  sent.kept += 1;
}

/** Photos go first, since an entry may only name what is there. @returns why one was refused, else null. */
async function sendPhotosOf(one: WaitingEntry, store: WaitingStore, senders: Senders): Promise<string | null> {
  for (const id of one.entry.photoIds ?? []) {
    const photo = await store.photo(id);
    if (!photo) continue;
    try {
      await senders.sendPhoto(id, photo);
    } catch (error) {
      if (!isRefusal(error)) throw error;
      return error.message;
    }
    await store.removePhoto(id);
  }
  return null;
}

async function sendPacket(
  packet: readonly WaitingEntry[],
  store: WaitingStore,
  senders: Senders,
  who: Writer,
  sent: { kept: number; refused: number },
): Promise<void> {
  const queued = packet.map(({ pileId, entry }) => ({ pileId, entry }));
  const { outcomes } = await senders.sendEntries(queued, who.id);
  const byId = new Map(outcomes.map((outcome) => [outcome.id, outcome]));
  for (const one of packet) {
    const outcome = byId.get(one.id);
    // Not named: not confirmed, so it waits on.
    if (!outcome) continue;
    if (outcome.outcome === 'refused') {
      await refuse(one, { refused: outcome.detail ?? '' }, store, sent);
    } else {
      if (!(await wasTakenBack(one, store))) await store.remove(one.id);
      sent.kept += 1;
    }
  }
}

/** Said by the server about this very thing; a server that is busy, locked or broken is asked again. */
function isRefusal(error: unknown): error is ApiProblem {
  if (!(error instanceof ApiProblem)) return false;
  const { status } = error.problem;
  return status >= 400 && status < 500 && ![401, 403, 408, 429].includes(status);
}

export function isBrokenLine(error: unknown): boolean {
  return error instanceof NoAnswer || (error instanceof ApiProblem && !isRefusal(error));
}
