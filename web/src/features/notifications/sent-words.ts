/** What became of a message, in words. */
import type { MessageView, NotificationView } from '../../../../shared/contracts/notifications.ts';
import type { NotificationChannel } from '../../../../shared/notifications.ts';
import type { Severity } from '../../../../shared/warning.ts';

export const channelNames: Record<NotificationChannel, string> = { push: 'push', email: 'e-mail', webhook: 'webhook' };

export const reasonNames: Record<NotificationView['reason'], string> = {
  'first-raise': 'It was raised',
  'got-worse': 'It got worse',
  'reminder-due': 'Reminder',
  cleared: 'It was over',
  'handed-on': 'Handed on',
  'not-reached': 'Somebody else could not be reached',
  summary: 'Daily summary',
  'measure-due': 'Time to measure',
  test: 'Test',
  confirmation: 'Code for an address',
};

export const severityChoices: readonly (readonly [Severity, string])[] = [
  ['notice', 'Everything'],
  ['warning', 'Warnings and worse'],
  ['urgent', 'Urgent and worse'],
  ['danger', 'Danger only'],
];

/** @param time Tells an instant in the reader's clock. */
export function messageWords(message: MessageView, time: (at: string) => string): string {
  const tries = message.attempts.length;
  const last = message.attempts.at(-1);
  switch (message.state) {
    case 'sent':
      return `sent ${time(message.doneAt ?? message.madeAt)}${tries > 1 ? ` at the ${ordinal(tries)} attempt` : ''}`;
    case 'held':
      return `held until ${time(message.notBefore)}: ${message.reason ?? 'quiet hours'}`;
    case 'overtaken':
      return `not sent: ${message.reason ?? 'over before it could be sent'}`;
    case 'given-up':
      return `could not be delivered: ${message.reason ?? last?.detail ?? 'no reason given'}`;
    case 'waiting':
      return tries === 0
        ? 'on its way'
        : `not through yet (${tries} ${tries === 1 ? 'attempt' : 'attempts'}): ${last?.detail ?? ''}; it is tried again`;
  }
}

function ordinal(count: number): string {
  return ['', 'first', 'second', 'third', 'fourth', 'fifth'][count] ?? `${count}th`;
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
