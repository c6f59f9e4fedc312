// Made from ../../en/page-best.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageBestParams {
  'page-best.title': NoParams;
  'page-best.title.year': { readonly yearText: string };
  'page-best.stage': { readonly stage: 'bran' | 'other' | 'soil' };
  'page-best.best': { readonly batchName: string; readonly isYear: boolean; readonly judgedText: string; readonly link: Tag; readonly yearText: string };
  'page-best.alike': { readonly alarmHours: number; readonly alikeCount: number; readonly comfortFrac: number; readonly isMeasured: boolean; readonly verdict: 'good' | 'lost' | 'other' | 'poor' | 'usable' };
  'page-best.different': NoParams;
  'page-best.groups': { readonly isYear: boolean; readonly likeCount: number; readonly lower: 'good' | 'lost' | 'other' | 'poor' | 'usable'; readonly lowerCount: number; readonly verdict: 'good' | 'lost' | 'other' | 'poor' | 'usable' };
  'page-best.like': { readonly verdict: 'good' | 'lost' | 'other' | 'poor' | 'usable' };
  'page-best.own': { readonly batchName: string; readonly figureText: string };
  'page-best.none-lower': { readonly likeText: string };
  'page-best.rest': NoParams;
  'page-best.nobody': { readonly batchCount: number };
  'page-best.unjudged': { readonly batchCount: number };
  'page-best.order': NoParams;
  'page-best.alike.names': { readonly alikeCount: number; readonly verdict: 'good' | 'lost' | 'other' | 'poor' | 'usable' };
  'page-best.unjudged.names': NoParams;
  'page-best.apart': { readonly apartCount: number };
  'page-best.few': NoParams;
  'page-best.whys': { readonly whysText: string };
  'page-best.why': { readonly saidCount: number; readonly whyText: string };
  'page-best.why.own': NoParams;
}
