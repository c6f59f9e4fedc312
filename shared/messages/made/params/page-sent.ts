// Made from ../../en/page-sent.json by `npm run messages`; change that instead.
import type { NoParams, Tag } from '../../param-types.ts';

export interface PageSentParams {
  'page-sent.state.sent': { readonly sentText: string; readonly tryCount: number };
  'page-sent.state.held': { readonly reasonText: string; readonly untilText: string };
  'page-sent.state.held.quiet': NoParams;
  'page-sent.state.overtaken': { readonly reasonText: string };
  'page-sent.state.overtaken.over': NoParams;
  'page-sent.state.given-up': { readonly reasonText: string };
  'page-sent.state.given-up.why': NoParams;
  'page-sent.state.waiting': NoParams;
  'page-sent.state.tried': { readonly reasonText: string; readonly tryCount: number };
  'page-sent.channel.push': NoParams;
  'page-sent.channel.email': NoParams;
  'page-sent.channel.webhook': NoParams;
  'page-sent.reason.first-raise': NoParams;
  'page-sent.reason.got-worse': NoParams;
  'page-sent.reason.reminder-due': NoParams;
  'page-sent.reason.cleared': NoParams;
  'page-sent.reason.handed-on': NoParams;
  'page-sent.reason.not-reached': NoParams;
  'page-sent.reason.summary': NoParams;
  'page-sent.reason.measure-due': NoParams;
  'page-sent.reason.test': NoParams;
  'page-sent.reason.confirmation': NoParams;
  'page-sent.loading': NoParams;
  'page-sent.nobody': NoParams;
  'page-sent.notice': { readonly isOfSite: boolean; readonly reasonText: string; readonly strong: Tag; readonly whenText: string };
  'page-sent.message': { readonly addressText: string; readonly channelText: string; readonly personName: string; readonly stateText: string };
  'page-sent.attempts': { readonly aloud: Tag; readonly personName: string; readonly tryCount: number };
  'page-sent.lost': { readonly messageCount: number };
  'page-sent.lost.one': { readonly addressText: string; readonly channelText: string; readonly personName: string; readonly reasonText: string; readonly strong: Tag; readonly whenText: string };
  'page-sent.lost.pile': NoParams;
  'page-sent.lost.seen': { readonly aloud: Tag; readonly personName: string };
  'page-sent.attempt': { readonly detailText: string; readonly outcome: 'failed' | 'other' | 'sent'; readonly timeText: string };
}
