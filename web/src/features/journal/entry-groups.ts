import type { EntryKind } from '../../../../shared/entry.ts';

/** As they stand under the thumb: what is done most comes first. A verdict is asked where a batch ends. */
export const entryGroups = [
  { group: 'measured', kinds: ['measured'] },
  { group: 'done', kinds: ['turned', 'watered', 'spread', 'heaped', 'covered', 'uncovered', 'moved', 'rained'] },
  { group: 'found', kinds: ['squeeze', 'smell', 'growth', 'pests', 'readiness'] },
  { group: 'kept', kinds: ['photo', 'note', 'sample'] },
] as const satisfies readonly { readonly group: string; readonly kinds: readonly EntryKind[] }[];
