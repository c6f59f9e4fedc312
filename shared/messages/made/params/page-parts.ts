// Made from ../../en/page-parts.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface PagePartsParams {
  'page-parts.pager.back': NoParams;
  'page-parts.pager.next': NoParams;
  'page-parts.pager.shown': { readonly allCount: number; readonly fromCount: number; readonly toCount: number };
  'page-parts.copy': NoParams;
  'page-parts.copied': NoParams;
  'page-parts.no': NoParams;
}
