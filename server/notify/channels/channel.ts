/** What every channel to a person takes and gives. */
import { type Message, verbatim } from '../../../shared/messages/message.ts';
import type { AttemptOutcome } from '../../../shared/notifications.ts';
import type { MessageRecord, NoticeRecord } from '../../../shared/store/notifications-store.ts';
import type { MessageContent, MessageReader } from './render-content.ts';

export interface Job {
  readonly message: MessageRecord;
  readonly notice: NoticeRecord;
  readonly content: MessageContent;
  /** Who reads it, in whose language it is. */
  readonly reader: MessageReader;
  /** Where the alarm or pile can be looked at; undefined while the server has no public address. */
  readonly pageUrl: string | undefined;
  /** Acknowledges, once; undefined where there is nothing to acknowledge. */
  readonly ack: { readonly url: string | undefined; readonly secret: string } | undefined;
}

export interface ChannelAnswer {
  readonly outcome: AttemptOutcome;
  /** What the other side said, in one line, or why it was not asked. */
  readonly detail: Message;
  /** Not before this much later, when the other side asked for it. */
  readonly retryAfterMs?: number;
}

export interface Channel {
  /** Never throws; ends within `timeoutMs`. */
  send(job: Job): Promise<ChannelAnswer>;
  close(): void;
}

/** Longest that one attempt may take, whatever the other side does. */
export const attemptTimeoutMs = 20_000;

/** What another program said. */
export const asSaid = (text: string): Message => verbatim(oneLine(text));

/** One line that a page can show: no control characters, not endless. */
export function oneLine(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
  const line = text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, ' ').trim();
  return line.length > 300 ? `${line.slice(0, 299)}…` : line;
}
