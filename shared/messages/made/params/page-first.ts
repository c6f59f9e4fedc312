// Made from ../../en/page-first.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageFirstParams {
  'page-first.server': NoParams;
  'page-first.port': NoParams;
  'page-first.tls': NoParams;
  'page-first.tls.on': { readonly isTls: boolean };
  'page-first.only-here': { readonly link: Tag };
  'page-first.key.do': NoParams;
  'page-first.key.why': NoParams;
  'page-first.key.unused': { readonly keyName: string; readonly link: Tag; readonly madeAgoMs: number };
  'page-first.key.ask': NoParams;
  'page-first.waiting': NoParams;
  'page-first.came': { readonly cameAtMs: number; readonly mono: Tag; readonly topicText: string };
  'page-first.unread': { readonly lastAgoMs: number; readonly mono: Tag; readonly topicText: string; readonly whyText: string };
  'page-first.unused': { readonly link: Tag; readonly mono: Tag; readonly topicText: string };
  'page-first.turned-away': { readonly addressText: string; readonly b: Tag; readonly lastAgoMs: number; readonly meaningText: string; readonly whatText: string };
  'page-first.outside': NoParams;
}
