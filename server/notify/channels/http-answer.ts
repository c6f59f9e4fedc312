/** What an HTTP status means for a message. */

import { type Message, message } from '../../../shared/messages/message.ts';
import { asSaid, type ChannelAnswer } from './channel.ts';
import { AddressRefused, type GuardedAnswer, RequestError } from './guarded-request.ts';

/** Statuses that no later attempt will change; everything else may be a passing trouble of the other side. */
const forGood = new Set([410, 413]);

export function channelAnswer({ status, headers, body }: GuardedAnswer): ChannelAnswer {
  const said = asSaid(`HTTP ${status}${body.trim() === '' || body.trimStart().startsWith('<') ? '' : `: ${body}`}`);
  if (status >= 200 && status < 300) return { outcome: 'sent', detail: said };
  if (status >= 300 && status < 400)
    return { outcome: 'refused', detail: message('delivery.redirect', { saidPart: said }) };
  const retryAfterMs = retryAfter(headers['retry-after']);
  return {
    outcome: forGood.has(status) ? 'refused' : 'failed',
    detail: said,
    ...(retryAfterMs === undefined ? {} : { retryAfterMs }),
  };
}

export function channelError(error: unknown): ChannelAnswer {
  return { outcome: error instanceof AddressRefused ? 'refused' : 'failed', detail: saidOf(error) };
}

/** Why a request came to nothing. */
export function saidOf(error: unknown): Message {
  if (error instanceof RequestError) return error.said;
  if (!(error instanceof Error)) return asSaid(String(error));
  return asSaid(error.message || String((error as NodeJS.ErrnoException).code));
}

/** However long the other side asks for. */
export const longestRetryMs = 3_600_000;

/** RFC 9110 section 10.2.3, in seconds or as a date. */
export function retryAfter(header: string | string[] | undefined): number | undefined {
  if (typeof header !== 'string') return undefined;
  const seconds = Number(header);
  const ms = Number.isFinite(seconds) ? seconds * 1000 : Date.parse(header) - Date.now();
  return Number.isFinite(ms) ? Math.min(longestRetryMs, Math.max(0, ms)) : undefined;
}
