// Made from ../../en/page-welcome.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageWelcomeParams {
  'page-welcome.title': NoParams;
  'page-welcome.none': NoParams;
  'page-welcome.none.hint': NoParams;
  'page-welcome.practise-meanwhile': { readonly link: Tag };
  'page-welcome.lay-first': NoParams;
  'page-welcome.lead': NoParams;
  'page-welcome.demo': { readonly command: Tag };
  'page-welcome.publish': { readonly isOnlyHere: boolean; readonly topic: Tag; readonly topicText: string };
  'page-welcome.copy': NoParams;
  'page-welcome.copied': NoParams;
  'page-welcome.broker': { readonly detailText: string; readonly stateText: string };
  'page-welcome.have': NoParams;
  'page-welcome.have.thermometer': NoParams;
  'page-welcome.have.sensor': NoParams;
  'page-welcome.have.parts': NoParams;
  'page-welcome.have.nothing': NoParams;
  'page-welcome.thermometer': NoParams;
  'page-welcome.parts': { readonly link: Tag };
  'page-welcome.nothing': NoParams;
  'page-welcome.nothing.do': NoParams;
  'page-welcome.sensor.where': NoParams;
  'page-welcome.sensor.pile': NoParams;
}
