// Made from ../../en/page-sign-in.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageSignInParams {
  'page-sign-in.hide': NoParams;
  'page-sign-in.show': NoParams;
  'page-sign-in.title': NoParams;
  'page-sign-in.token.wanted': NoParams;
  'page-sign-in.who': NoParams;
  'page-sign-in.owed': { readonly strong: Tag };
  'page-sign-in.owed.lost': NoParams;
  'page-sign-in.name': NoParams;
  'page-sign-in.password': NoParams;
  'page-sign-in.forgotten': NoParams;
  'page-sign-in.token.open': NoParams;
  'page-sign-in.token.form': NoParams;
  'page-sign-in.token': NoParams;
  'page-sign-in.token.hint': NoParams;
  'page-sign-in.token.refused': NoParams;
  'page-sign-in.token.do': NoParams;
  'page-sign-in.nobody.title': NoParams;
  'page-sign-in.nobody': NoParams;
  'page-sign-in.nobody.how': NoParams;
  'page-sign-in.link.title': NoParams;
  'page-sign-in.link.wait': NoParams;
  'page-sign-in.link.none': NoParams;
  'page-sign-in.link.none.hint': NoParams;
  'page-sign-in.to-piles': NoParams;
  'page-sign-in.link.setup': NoParams;
  'page-sign-in.link.invitation': NoParams;
  'page-sign-in.link.reset': NoParams;
  'page-sign-in.link.setup.says': NoParams;
  'page-sign-in.link.invited.owner': { readonly isKnown: boolean; readonly ownerName: string };
  'page-sign-in.link.invited.keeper': { readonly isKnown: boolean; readonly ownerName: string };
  'page-sign-in.link.invited.viewer': { readonly isKnown: boolean; readonly ownerName: string };
  'page-sign-in.link.reset.says': { readonly personName: string };
  'page-sign-in.name.new': NoParams;
  'page-sign-in.name.new.hint': NoParams;
  'page-sign-in.password.hint': NoParams;
  'page-sign-in.link.reset.do': NoParams;
  'page-sign-in.link.join': NoParams;
  'page-sign-in.link.ends': { readonly endsAtMs: number };
}
