/**
 * What the judge hears of the journal beside the acts: what people noted with hand, nose, eyes and scales, and their
 * word that it is ready.
 */
import { type Noted, type NotedFacts, notedKinds } from '../../core/profiles/noted.ts';
import type { PileSetup } from '../../core/profiles/pile-setup.ts';
import { type EntryFacts, type EntryKind, isActKind } from '../../shared/entry.ts';
import type { BatchRecord, EntryRecord, Journal } from '../../shared/store/journal.ts';

export type HeardOfPeople = Pick<PileSetup, 'noted' | 'confirmedAtMs'>;

/** Whether an entry of this kind changes what the judge says. */
export function isHeard(kind: EntryKind): boolean {
  // By verdicts is chosen which batches speak in the expected band.
  return (
    isActKind(kind) || kind === 'measured' || kind === 'verdict' || (notedKinds as readonly EntryKind[]).includes(kind)
  );
}

export async function heardOfPeople(journal: Journal, batch: BatchRecord | null): Promise<HeardOfPeople> {
  if (!batch) return {};
  const { pileId, startedAtMs: fromMs } = batch;
  return heardIn(await journal.entries.list({ pileId, fromMs, kinds: notedKinds, limit: 1000 }));
}

export function heardIn(entries: readonly EntryRecord[]): HeardOfPeople {
  const oldestFirst = [...entries].sort((one, other) => one.atMs - other.atMs || one.recordedAtMs - other.recordedAtMs);
  // The newest word counts: who found it ready yesterday may find it sour today.
  const word = oldestFirst.findLast(({ what }) => what.kind === 'readiness');
  return {
    noted: oldestFirst.flatMap((entry) => notedOf(entry) ?? []),
    ...(word?.what.kind === 'readiness' && word.what.ready && { confirmedAtMs: word.atMs }),
  };
}

function notedOf({ atMs, by, what }: EntryRecord): Noted | undefined {
  return isNoted(what) ? { atMs, by, what } : undefined;
}

function isNoted(what: EntryFacts): what is NotedFacts {
  return (notedKinds as readonly EntryKind[]).includes(what.kind);
}
