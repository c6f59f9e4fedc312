// Made from ../../en/page-lineage.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageLineageParams {
  'page-lineage.title': NoParams;
  'page-lineage.title.of': { readonly memberName: string };
  'page-lineage.batches': NoParams;
  'page-lineage.none': NoParams;
  'page-lineage.none.begin': { readonly link: Tag };
  'page-lineage.member': { readonly bedCount: number; readonly isUse: boolean; readonly saysText: string };
  'page-lineage.open': { readonly kind: 'batch' | 'other' };
  'page-lineage.came-from': NoParams;
  'page-lineage.came-from.none': NoParams;
  'page-lineage.went-to': NoParams;
  'page-lineage.went-to.none': NoParams;
  'page-lineage.everything': NoParams;
  'page-lineage.kind': { readonly kind: 'batch' | 'lot' | 'other' | 'use' };
  'page-lineage.share': { readonly saysText: string; readonly shareText: string };
  'page-lineage.tree': NoParams;
  'page-lineage.tree.title': NoParams;
}
