/** Entries half written: one of each kind for each pile, kept on this device until it is written down or thrown away. */
import { z } from 'zod';
import { type EntryKind, entryKinds } from '../../../../shared/entry.ts';
import { forgetHalfDone, halfDone, keepHalfDone, useHalfDone } from '../../data/half-done.ts';
import { restated, typedUnitsSchema, unitsNow } from '../../data/plan-units.ts';
import { type EntryDraft, entryDraftSchema } from './entry-draft.ts';

const keptSchema = z.object({ draft: entryDraftSchema, at: z.string().nullable(), units: typedUnitsSchema });

/** An entry half written, and when it happened by the wall clock; null for now. */
export interface KeptDraft {
  readonly draft: EntryDraft;
  readonly at: string | null;
}

const nameOf = (pileId: string, kind: EntryKind) => `entry ${pileId} ${kind}`;

export function keptDraft(pileId: string, kind: EntryKind): KeptDraft | undefined {
  const kept = halfDone(nameOf(pileId, kind), keptSchema);
  if (kept?.draft.kind !== kind) return undefined;
  const { draft, at, units } = kept;
  const now = unitsNow();
  return {
    at,
    draft: {
      ...draft,
      temperature: restated('tempC', draft.temperature, units, now),
      amount: restated(kind === 'rained' ? 'rainMm' : 'volumeL', draft.amount, units, now),
      depth: restated('depthM', draft.depth, units, now),
    },
  };
}

export function keepDraft(pileId: string, { draft, at }: KeptDraft): void {
  keepHalfDone(nameOf(pileId, draft.kind), { draft, at, units: unitsNow() });
}

export function forgetDraft(pileId: string, kind: EntryKind): void {
  forgetHalfDone(nameOf(pileId, kind));
}

/** The kinds of which an entry is half written. */
export function useDraftKinds(pileId: string): ReadonlySet<EntryKind> {
  const names = useHalfDone();
  return new Set(entryKinds.filter((kind) => names.includes(nameOf(pileId, kind))));
}
