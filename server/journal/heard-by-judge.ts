/**
 * server/journal/heard-by-judge.ts: what the judge hears of the journal beside the acts: hands and scales on its moisture, and a
 * person's word that it is ready.
 */
import type { MoistureSample, PileSetup } from '../../core/judge/setup.ts';
import { type EntryKind, isActKind, sampleMoistureFrac } from '../../shared/entry.ts';
import type { BatchRecord, EntryRecord, Journal } from '../../shared/store/journal.ts';

export type HeardOfPeople = Pick<PileSetup, 'samples' | 'confirmedAtMs'>;

const heardKinds = ['squeeze', 'sample', 'readiness'] as const satisfies readonly EntryKind[];

/** Whether an entry of this kind changes what the judge says. */
export function isHeard(kind: EntryKind): boolean {
  return isActKind(kind) || (heardKinds as readonly EntryKind[]).includes(kind);
}

export async function heardOfPeople(journal: Journal, batch: BatchRecord | null): Promise<HeardOfPeople> {
  if (!batch) return {};
  const { pileId, startedAtMs: fromMs } = batch;
  return heardIn(await journal.entries.list({ pileId, fromMs, kinds: heardKinds, limit: 1000 }));
}

export function heardIn(entries: readonly EntryRecord[]): HeardOfPeople {
  const oldestFirst = [...entries].sort((one, other) => one.atMs - other.atMs);
  // The newest word counts: who found it ready yesterday may find it sour today.
  const word = oldestFirst.findLast(({ what }) => what.kind === 'readiness');
  return {
    samples: oldestFirst.flatMap((entry) => sampleOf(entry) ?? []),
    ...(word?.what.kind === 'readiness' && word.what.ready && { confirmedAtMs: word.atMs }),
  };
}

function sampleOf({ atMs, what }: EntryRecord): MoistureSample | undefined {
  if (what.kind === 'squeeze') return { kind: 'squeezed', atMs, feel: what.feel === 'pours' ? 'streams' : what.feel };
  if (what.kind !== 'sample' || what.dryG === undefined) return undefined;
  return { kind: 'weighed', atMs, moistureFrac: sampleMoistureFrac(what.wetG, what.dryG) };
}
