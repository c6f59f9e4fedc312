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
import { problemSchema } from '../../../../shared/contracts/problem.ts';
import { ApiProblem, ask, NoAnswer, requestHeaders } from '../../data/client.ts';

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
export const sendEntries = (entries: readonly QueuedEntry[], writer: string) =>
  ask(queuedAnswerSchema, '/api/entries', { method: 'POST', body: { entries, writer } });

/** Sent as the file itself; the same id again is known. */
export async function sendPhoto(id: string, photo: Blob): Promise<void> {
  const response = await reach(`/api/photos/${piece(id)}`, {
    method: 'PUT',
    headers: requestHeaders({ 'content-type': photo.type }),
    body: photo,
  });
  photoSchema.parse(await response.json());
}

/** A file of the server, with the token it may want. */
export async function getFile(path: string): Promise<Blob> {
  return (await reach(path, { headers: requestHeaders() })).blob();
}

async function reach(path: string, init: RequestInit): Promise<Response> {
  const response = await fetch(path, init).catch((cause: unknown) => {
    throw new NoAnswer('Branhearth does not answer. Is it running, and is this device on the same network?', { cause });
  });
  if (response.ok) return response;
  const problem = problemSchema.safeParse(await response.json().catch(() => undefined));
  const { status } = response;
  const detail = `The request was refused (HTTP ${status}) without a reason given`;
  throw new ApiProblem(problem.success ? problem.data : { type: 'about:blank', title: 'Refused', status, detail });
}
