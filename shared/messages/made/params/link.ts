// Made from ../../en/link.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface LinkParams {
  'link.unknown': NoParams;
  'link.unknown.says': NoParams;
  'link.used': NoParams;
  'link.used.says': { readonly personName: string; readonly usedAtMs: number };
  'link.too-old': NoParams;
  'link.too-old.says': NoParams;
  'link.ready': NoParams;
  'link.ready.says': NoParams;
  'link.done': NoParams;
  'link.done.says': { readonly personName: string };
  'link.put-aside': NoParams;
  'link.put-aside.says': NoParams;
  'link.acknowledged-by': { readonly isNamed: boolean; readonly personName: string };
  'link.over': NoParams;
  'link.over.says': NoParams;
  'link.button': NoParams;
  'link.see-piles': NoParams;
  'link.see-pile': NoParams;
  'link.sent': { readonly sentAtMs: number };
}
