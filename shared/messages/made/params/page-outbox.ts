// Made from ../../en/page-outbox.json by `npm run messages`; change that instead.
import type { Tag } from '../../param-types.ts';

export interface PageOutboxParams {
  'page-outbox.own': { readonly entryCount: number; readonly send: Tag };
  'page-outbox.of': { readonly entryCount: number; readonly personName: string };
  'page-outbox.nobodys': { readonly entryCount: number };
  'page-outbox.see': { readonly entryCount: number };
  'page-outbox.refused': { readonly entryCount: number };
}
