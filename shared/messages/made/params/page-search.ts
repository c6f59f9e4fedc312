// Made from ../../en/page-search.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface PageSearchParams {
  'page-search.title': NoParams;
  'page-search.label': NoParams;
  'page-search.hint': NoParams;
  'page-search.looking': NoParams;
  'page-search.none': NoParams;
  'page-search.group': { readonly group: 'batches' | 'entries' | 'other' | 'piles' };
  'page-search.count': { readonly foundCount: number };
  'page-search.more': { readonly shownCount: number };
  'page-search.cut': { readonly entryCount: number };
  'page-search.entry': { readonly byName: string; readonly isNamed: boolean; readonly whenText: string };
  'page-search.probe.free': NoParams;
}
