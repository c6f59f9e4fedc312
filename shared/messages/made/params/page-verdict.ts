// Made from ../../en/page-verdict.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageVerdictParams {
  'page-verdict.title': NoParams;
  'page-verdict.lead': NoParams;
  'page-verdict.verdict': NoParams;
  'page-verdict.is.good': NoParams;
  'page-verdict.is.usable': NoParams;
  'page-verdict.is.poor': NoParams;
  'page-verdict.is.lost': NoParams;
  'page-verdict.means.good': NoParams;
  'page-verdict.means.usable': NoParams;
  'page-verdict.means.poor': NoParams;
  'page-verdict.means.lost': NoParams;
  'page-verdict.why': NoParams;
  'page-verdict.why.known': NoParams;
  'page-verdict.why.more': NoParams;
  'page-verdict.why.smelt-good': NoParams;
  'page-verdict.why.grew-white': NoParams;
  'page-verdict.why.kept-warm': NoParams;
  'page-verdict.why.too-hot': NoParams;
  'page-verdict.why.too-cool': NoParams;
  'page-verdict.why.too-wet': NoParams;
  'page-verdict.why.too-dry': NoParams;
  'page-verdict.why.smelt-bad': NoParams;
  'page-verdict.why.other-growth': NoParams;
  'page-verdict.why.pests': NoParams;
  'page-verdict.why.uneven': NoParams;
  'page-verdict.own': NoParams;
  'page-verdict.own.keep': NoParams;
  'page-verdict.own.missing': NoParams;
  'page-verdict.correct': NoParams;
  'page-verdict.correct.leave': NoParams;
  'page-verdict.waits': NoParams;
  'page-verdict.refused': { readonly reasonText: string };
  'page-verdict.nobody': NoParams;
  'page-verdict.none': { readonly link: Tag };
  'page-verdict.given': { readonly byName: string; readonly dayText: string; readonly isNamed: boolean };
}
