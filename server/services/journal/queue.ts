/**
 * Entries that waited out of reach, handed in together. It never lets one that cannot be kept hold back the others; a
 * store that fails stops the rest, to be sent again.
 */
import type { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import { newEntrySchema, type QueuedAnswer, type queuedEntriesSchema } from '../../../shared/contracts/journal.ts';
import { ConflictError } from '../../../shared/errors.ts';
import { fieldFault } from '../../../shared/messages/field-fault.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import type { EntryRecord } from '../../../shared/store/journal.ts';
import { type JournalService, timeProblem } from './journal-service.ts';

type Queued = z.output<typeof queuedEntriesSchema>['entries'];
type Outcome = QueuedAnswer['outcomes'][number];

/** @param signed The name that stands beside an entry, where the one it was written with does not count. */
export async function handInQueue(
  queued: Queued,
  service: JournalService,
  clock: Clock,
  signed: (by: string | undefined) => string | undefined = (by) => by,
): Promise<{ outcomes: Outcome[]; kept: readonly EntryRecord[] }> {
  const outcomes: Outcome[] = [];
  const kept: EntryRecord[] = [];
  const known: EntryRecord[] = [];
  const noted = { kept, known };
  try {
    for (const { pileId, entry } of queued) outcomes.push(await handIn(pileId, entry, service, clock, noted, signed));
  } finally {
    // What was kept stays kept even if a later one failed, so the judge must hear of it.
    await service.notifyJudgeOf(kept, known);
  }
  return { outcomes, kept };
}

async function handIn(
  pileId: string,
  entry: Queued[number]['entry'],
  service: JournalService,
  clock: Clock,
  noted: Record<'kept' | 'known', EntryRecord[]>,
  signed: (by: string | undefined) => string | undefined,
): Promise<Outcome> {
  const { id } = entry;
  const refused = (said: Message, pointer: string): Outcome => ({
    id,
    outcome: 'refused',
    ...inWords({ detail: said }, clock.nowMs()),
    pointer,
  });
  const read = newEntrySchema.safeParse(entry);
  if (!read.success) {
    const [issue] = read.error.issues;
    return refused(issue ? fieldFault(issue) : message('field.other-kind'), `/${(issue?.path ?? []).join('/')}`);
  }
  const problem = timeProblem(read.data.at, clock.nowMs());
  if (problem) return refused(problem, '/at');
  try {
    const answer = await service.addQuietly(pileId, { ...read.data, by: signed(read.data.by) });
    noted[answer.kept].push(answer.record);
    return { id, outcome: answer.kept, detail: null, pointer: null, messages: { detail: null } };
  } catch (error) {
    if (error instanceof ConflictError) return refused(error.said, error.pointer);
    throw error;
  }
}
