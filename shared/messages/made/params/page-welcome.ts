// Made from ../../en/page-welcome.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageWelcomeParams {
  'page-welcome.title': NoParams;
  'page-welcome.none': NoParams;
  'page-welcome.none.hint': NoParams;
  'page-welcome.practise-meanwhile': { readonly link: Tag };
  'page-welcome.lay-first': NoParams;
  'page-welcome.lead': NoParams;
  'page-welcome.step.name': NoParams;
  'page-welcome.step.probe': NoParams;
  'page-welcome.step.claim': NoParams;
  'page-welcome.only-looking': NoParams;
  'page-welcome.practise': { readonly link: Tag };
  'page-welcome.demo': { readonly command: Tag };
  'page-welcome.publish': { readonly isOnlyHere: boolean; readonly topic: Tag; readonly topicText: string };
  'page-welcome.copy': NoParams;
  'page-welcome.copied': NoParams;
  'page-welcome.broker': { readonly detailText: string; readonly stateText: string };
  'page-welcome.no-probe': NoParams;
  'page-welcome.talks': { readonly ageText: string; readonly isHeard: boolean; readonly isHot: boolean; readonly name: Tag; readonly probeText: string; readonly tempText: string };
  'page-welcome.more': { readonly moreCount: number };
  'page-welcome.then': { readonly link: Tag };
}
