/** The journal's routes, one function each. */
import type { z } from 'zod';
import {
  type correctionSchema,
  entriesAnswerSchema,
  entryDetailSchema,
  entrySchema,
  photoSchema,
  type QueuedEntry,
  queuedAnswerSchema,
  type withdrawalSchema,
} from '../../../../shared/contracts/journal.ts';
import { ApiProblem, ask, requestHeaders } from '../../data/client.ts';
import { reach } from '../../data/files.ts';
import type { WaitingEntry } from './outbox.ts';

const piece = encodeURIComponent;

export const getEntries = (pileId: string, after?: string) =>
  ask(
    entriesAnswerSchema,
    `/api/piles/${piece(pileId)}/entries?${new URLSearchParams({ withdrawn: 'yes', ...(after ? { after } : {}) })}`,
  );
export const getEntry = (id: string) => ask(entryDetailSchema, `/api/entries/${piece(id)}`);
export const correctEntry = (id: string, correction: z.input<typeof correctionSchema>) =>
  ask(entrySchema, `/api/entries/${piece(id)}/corrections`, { method: 'POST', body: correction });
export const withdrawEntry = (id: string, withdrawal: z.input<typeof withdrawalSchema>) =>
  ask(entrySchema, `/api/entries/${piece(id)}/withdrawal`, { method: 'POST', body: withdrawal });
/** Each is kept once under its id, so that they may be sent again when no answer came. */
export const sendEntries = (entries: readonly QueuedEntry[], writer: string) =>
  ask(queuedAnswerSchema, '/api/entries', { method: 'POST', body: { entries, writer }, patienceMs: 60_000 });

/** Strikes out an entry that may never have arrived, or be struck out already. */
export async function strikeOut({ id, entry, takenBackAs = '' }: WaitingEntry): Promise<void> {
  const standing = await getEntry(id).catch((error: unknown) => {
    if (error instanceof ApiProblem && error.problem.status === 404) return undefined;
    throw error;
  });
  if (!standing || standing.entry.withdrawn) return;
  const { by } = entry;
  await withdrawEntry(id, { id: takenBackAs, replaces: standing.entry.versionId, ...(by ? { by } : {}) });
}

/** Sent as the file itself; the same id again is known. */
export async function sendPhoto(id: string, photo: Blob): Promise<void> {
  const response = await reach(`/api/photos/${piece(id)}`, {
    method: 'PUT',
    headers: requestHeaders({ 'content-type': photo.type }),
    body: photo,
  });
  photoSchema.parse(await response.json());
}
