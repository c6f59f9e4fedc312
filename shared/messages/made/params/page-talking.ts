// Made from ../../en/page-talking.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageTalkingParams {
  'page-talking.line': { readonly age: Tag; readonly heardAgoMs: number; readonly isHeard: boolean; readonly isRead: boolean; readonly name: Tag; readonly probeName: string; readonly readText: string };
  'page-talking.rising': NoParams;
  'page-talking.warm': { readonly probeCount: number };
  'page-talking.offer': { readonly probeCount: number };
  'page-talking.in-core': { readonly aloud: Tag; readonly probeName: string };
  'page-talking.elsewhere': NoParams;
  'page-talking.none': NoParams;
}
