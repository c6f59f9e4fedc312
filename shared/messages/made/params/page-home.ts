// Made from ../../en/page-home.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageHomeParams {
  'page-home.title': NoParams;
  'page-home.looking': NoParams;
  'page-home.no-answer': NoParams;
  'page-home.no-answer.hint': NoParams;
  'page-home.now.danger': { readonly pileCount: number; readonly share: 'all' | 'both' | 'only' | 'other'; readonly someCount: number };
  'page-home.now.act': { readonly pileCount: number; readonly share: 'all' | 'both' | 'only' | 'other'; readonly someCount: number };
  'page-home.now.watch': { readonly someCount: number };
  'page-home.now.unknown': { readonly someCount: number };
  'page-home.now.calm': { readonly pileCount: number };
  'page-home.heard.danger': { readonly pileCount: number; readonly share: 'all' | 'both' | 'only' | 'other'; readonly someCount: number };
  'page-home.heard.act': { readonly pileCount: number; readonly share: 'all' | 'both' | 'only' | 'other'; readonly someCount: number };
  'page-home.heard.watch': { readonly someCount: number };
  'page-home.heard.unknown': { readonly someCount: number };
  'page-home.heard.calm': { readonly pileCount: number };
  'page-home.unclaimed': { readonly link: Tag; readonly mayClaim: boolean; readonly probeCount: number };
  'page-home.piles': { readonly pileCount: number };
  'page-home.lay-another': NoParams;
  'page-home.unacknowledged': { readonly alarmCount: number };
  'page-home.stage': { readonly stage: 'bran' | 'other' | 'soil' };
  'page-home.stage-day': { readonly dayCount: number; readonly phase: 'active' | 'cooling' | 'other' | 'resting' | 'settled' | 'warming'; readonly stage: 'bran' | 'other' | 'soil' };
  'page-home.last-reading': { readonly ageText: string };
  'page-home.find': NoParams;
  'page-home.choose': NoParams;
  'page-home.site': NoParams;
  'page-home.site.all': NoParams;
  'page-home.stage-choice': NoParams;
  'page-home.stage-choice.of': { readonly stage: 'bran' | 'other' | 'soil' };
  'page-home.state': NoParams;
  'page-home.state.of': { readonly state: 'calm' | 'empty' | 'need' | 'other' | 'watch' };
  'page-home.order': NoParams;
  'page-home.order.of': { readonly order: 'age' | 'heat' | 'name' | 'other' };
  'page-home.shown': { readonly pileCount: number; readonly shownCount: number };
  'page-home.show-all': NoParams;
  'page-home.none-like-that': NoParams;
  'page-home.need': { readonly pileCount: number };
  'page-home.watch': { readonly pileCount: number };
  'page-home.others': { readonly pileCount: number; readonly siteName: string };
  'page-home.curve': { readonly firstText: string; readonly isAheadKnown: boolean; readonly nowText: string; readonly thenText: string };
}
