import { type Message, message } from '../../shared/messages/message.ts';

/** What a person is notified of, whatever the channel. */
export interface NoticeContent {
  /** Of whom or what, and what of it; where both have no room, the name gives way. */
  readonly title: { readonly name: string; readonly what: Message };
  /** Which pile, what, what to do, by when. */
  readonly sentence: Message;
  readonly parts: readonly NoticePart[];
}

export interface NoticePart {
  readonly label: Message;
  readonly text: Message;
}

export const labels = {
  seen: message('notice.label.seen'),
  noted: message('notice.label.noted'),
  caution: message('notice.label.caution'),
  fire: message('notice.label.fire'),
  piles: message('notice.label.piles'),
  ifYou: message('notice.label.if-you'),
  ifNot: message('notice.label.if-not'),
};
