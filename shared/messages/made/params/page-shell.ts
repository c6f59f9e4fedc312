// Made from ../../en/page-shell.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageShellParams {
  'page-shell.skip': NoParams;
  'page-shell.foot': NoParams;
  'page-shell.nav.piles': NoParams;
  'page-shell.nav.plan': NoParams;
  'page-shell.nav.batches': NoParams;
  'page-shell.nav.seasons': NoParams;
  'page-shell.nav.practice': NoParams;
  'page-shell.nav.probes': NoParams;
  'page-shell.nav.more': NoParams;
  'page-shell.nav': NoParams;
  'page-shell.search': NoParams;
  'page-shell.announcer': NoParams;
  'page-shell.nobody': NoParams;
  'page-shell.nobody.below': NoParams;
  'page-shell.nobody.set-up': NoParams;
  'page-shell.nobody.ask': { readonly link: Tag };
  'page-shell.push.earlier-sign-in': NoParams;
  'page-shell.push.other-keys': NoParams;
  'page-shell.push.again': { readonly link: Tag };
  'page-shell.down.broker': { readonly problemText: string };
  'page-shell.down.readings': { readonly problemText: string };
  'page-shell.down.journal': { readonly problemText: string };
  'page-shell.tone.calm': NoParams;
  'page-shell.tone.unknown': NoParams;
  'page-shell.tone.watch': NoParams;
  'page-shell.tone.act': NoParams;
  'page-shell.tone.danger': NoParams;
  'page-shell.live.locked': NoParams;
  'page-shell.live': { readonly isFast: boolean; readonly speedText: string };
  'page-shell.live.connecting': NoParams;
  'page-shell.live.lost': { readonly sinceText: string };
  'page-shell.offline': { readonly ageText: string; readonly strong: Tag; readonly whenText: string };
  'page-shell.newer': NoParams;
  'page-shell.newer.do': NoParams;
  'page-shell.not-for-you': NoParams;
  'page-shell.not-for-you.who': { readonly to: 'other' | 'owner' };
  'page-shell.not-for-you.role': { readonly role: 'keeper' | 'other' | 'owner' };
  'page-shell.to-piles': NoParams;
  'page-shell.no-page': NoParams;
  'page-shell.no-page.says': NoParams;
}
