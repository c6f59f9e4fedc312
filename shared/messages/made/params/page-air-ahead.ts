// Made from ../../en/page-air-ahead.json by `npm run messages`; change that instead.
import type { Tag } from '../../param-types.ts';

export interface PageAirAheadParams {
  'page-air-ahead.used': { readonly aheadMs: number; readonly sinceMs: number; readonly sourceText: string };
  'page-air-ahead.fresh': { readonly aheadMs: number; readonly sourceText: string };
  'page-air-ahead.licence': { readonly licence: Tag; readonly sourceText: string };
}
