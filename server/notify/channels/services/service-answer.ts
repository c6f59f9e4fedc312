/** What the answer of a service means for a message, in plain words and without a secret. */
import { jsonOf } from '../../../../shared/json-of.ts';
import { type Message, message } from '../../../../shared/messages/message.ts';
import { asSaid, type ChannelAnswer } from '../channel.ts';
import type { GuardedAnswer } from '../guarded-request.ts';
import { longestRetryMs, retryAfter } from '../http-answer.ts';
import type { ServiceSender } from './sender.ts';

/** RFC 9110 and 6585: worth another attempt as they are. */
const passingEverywhere = [408, 421, 425, 429];

export function serviceAnswer(
  serviceName: string,
  sender: ServiceSender,
  { status, headers, body: text }: GuardedAnswer,
  secrets: readonly string[],
): ChannelAnswer {
  const body = jsonOf(text);
  const isSent = status >= 200 && status < 300 && !sender.notSent?.includes(status);
  if (isSent) return { outcome: 'sent', detail: asSaid(`HTTP ${status}`) };
  const fault = sender.fault(body);
  const saidPart = asSaid(withoutSecrets(fault === undefined ? `HTTP ${status}` : `HTTP ${status}: ${fault}`, secrets));
  if (status >= 300 && status < 400) return { outcome: 'refused', detail: message('delivery.redirect', { saidPart }) };
  const isPassing = status >= 500 || [...passingEverywhere, ...(sender.passing ?? [])].includes(status);
  const retryAfterMs = isPassing ? (retryAfter(headers['retry-after']) ?? sender.retryAfterMs?.(body)) : undefined;
  return {
    outcome: isPassing ? 'failed' : 'refused',
    detail: whyNot(status, serviceName, saidPart),
    ...(retryAfterMs === undefined ? {} : { retryAfterMs: Math.min(longestRetryMs, retryAfterMs) }),
  };
}

function whyNot(status: number, serviceName: string, saidPart: Message): Message {
  const said = { serviceName, saidPart };
  if (status === 429) return message('delivery.service.too-many', said);
  if (status >= 500 || status === 424) return message('delivery.service.trouble', said);
  if (status === 401 || status === 403) return message('delivery.service.key', said);
  if (status === 204 || status === 404) return message('delivery.service.not-found', said);
  return message('delivery.service.refused', said);
}

const withoutSecrets = (text: string, secrets: readonly string[]) =>
  secrets.reduce((kept, secret) => (secret === '' ? kept : kept.replaceAll(secret, '…')), text);
