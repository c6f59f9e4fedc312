/** What became of a message, in words. */
import type { MessageView } from '../../../../shared/contracts/notifications.ts';
import { isServiceChannel, serviceOf } from '../../../../shared/notification-services/services.ts';
import type { NotificationChannel } from '../../../../shared/notifications.ts';
import { saidNow } from '../../data/said-now.ts';
import type { SentWords } from './use-sent-words.ts';

/** By which channel. */
export const channelWords = (channel: NotificationChannel, { text }: Pick<SentWords, 'text'>): string =>
  isServiceChannel(channel) ? serviceOf(channel).name : text(`page-sent.channel.${channel}`);

/** @param time Tells an instant in the reader's clock. */
export function messageWords(
  message: MessageView,
  time: (at: string) => string,
  { text }: Pick<SentWords, 'text'>,
): string {
  const tries = message.attempts.length;
  const last = message.attempts.at(-1);
  switch (message.state) {
    case 'sent':
      return text('page-sent.state.sent', { sentText: time(message.doneAt ?? message.madeAt), tryCount: tries });
    case 'held':
      return text('page-sent.state.held', {
        untilText: time(message.notBefore),
        reasonText: reasonOf(message) ?? text('page-sent.state.held.quiet'),
      });
    case 'overtaken':
      return text('page-sent.state.overtaken', {
        reasonText: reasonOf(message) ?? text('page-sent.state.overtaken.over'),
      });
    case 'given-up':
      return text('page-sent.state.given-up', {
        reasonText: reasonOf(message) ?? (last && detailOf(last)) ?? text('page-sent.state.given-up.why'),
      });
    case 'waiting':
      return tries === 0
        ? text('page-sent.state.waiting')
        : text('page-sent.state.tried', { tryCount: tries, reasonText: last ? detailOf(last) : '' });
  }
}

/** Why it is so, in the language that is read; undefined where nobody said. */
export function reasonOf({ reason }: Pick<MessageView, 'reason'>): string | undefined {
  return reason === null ? undefined : saidNow(reason);
}

export function detailOf({ detail }: MessageView['attempts'][number]): string {
  return saidNow(detail);
}

/** @example timeText(450) // => "07:30" */
export function timeText(minuteOfDay: number): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${two(Math.floor(minuteOfDay / 60))}:${two(minuteOfDay % 60)}`;
}

/** @returns undefined when it is no time of day. */
export function minuteOf(text: string): number | undefined {
  const parts = /^(\d{1,2}):(\d{2})/.exec(text);
  if (!parts) return undefined;
  const minute = Number(parts[1]) * 60 + Number(parts[2]);
  return minute < 24 * 60 && Number(parts[2]) < 60 ? minute : undefined;
}
