/** What people were notified of, as the API shows it. */
import type { MessageView, NotificationView } from '../../../shared/contracts/notifications.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import type { ListedNotice, SentMessage } from '../../../shared/store/notifications-store.ts';

export function notificationView(notice: ListedNotice): NotificationView {
  return {
    id: notice.id,
    about: notice.about,
    reason: notice.answer,
    at: toInstant(notice.atMs),
    state: notice.state,
    messages: notice.messages.map(messageView),
  };
}

export function messageView(message: SentMessage): MessageView {
  return {
    id: message.id,
    person: message.personName,
    channel: message.channel,
    address: message.addressLabel,
    state: message.state,
    ...inWords({ reason: message.reason }, message.madeAtMs),
    madeAt: toInstant(message.madeAtMs),
    doneAt: message.doneAtMs === null ? null : toInstant(message.doneAtMs),
    notBefore: toInstant(message.notBeforeMs),
    attempts: message.attempts.map(({ number, atMs, tookMs, outcome, detail }) => ({
      number,
      at: toInstant(atMs),
      tookMs,
      outcome,
      ...inWords({ detail }, atMs),
    })),
  };
}
