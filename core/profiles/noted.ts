/** What a person noted of a pile with hand, nose, eyes or scales, in the words of the journal's own entries. */
import type { EntryFacts, EntryKind } from '../../shared/entry.ts';

export const notedKinds = ['squeeze', 'sample', 'smell', 'growth', 'readiness'] as const satisfies readonly EntryKind[];

export type NotedFacts = Extract<EntryFacts, { readonly kind: (typeof notedKinds)[number] }>;

export interface Noted {
  readonly atMs: number;
  /** Null where the entry carries no name. */
  readonly by: string | null;
  readonly what: NotedFacts;
}
