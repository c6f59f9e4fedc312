/**
 * A message as JSON to an address of the person's own, signed.
 *
 * Signed as the Standard Webhooks specification has it (version 1): HMAC-SHA256 over "id.timestamp.body", so that a
 * receiver can refuse what is old or was seen before, with any of its libraries. It never follows a redirect or reaches
 * inwards (guarded-request.ts).
 */
import { createHmac } from 'node:crypto';
import { toInstant } from '../../../shared/contracts/time.ts';
import { severityOfRank } from '../../../shared/notifications.ts';
import { attemptTimeoutMs, type Channel, type ChannelAnswer, type Job } from './channel.ts';
import { type GuardedOptions, guardedRequest } from './guarded-request.ts';
import { channelAnswer, channelError } from './http-answer.ts';

export interface WebhookOptions {
  readonly allowed: () => Promise<readonly string[]>;
  /** The person's signing secret, "whsec_" and base64. */
  readonly secretOf: (personId: string) => Promise<string>;
  readonly timeoutMs?: number;
  readonly guard?: Pick<GuardedOptions, 'trust' | 'lookup'>;
}

export const secretPrefix = 'whsec_';

export function openWebhook({
  allowed,
  secretOf,
  timeoutMs = attemptTimeoutMs / 2,
  guard = {},
}: WebhookOptions): Channel {
  async function send(job: Job): Promise<ChannelAnswer> {
    const { message } = job;
    try {
      const body = JSON.stringify(webhookBody(job));
      const timestamp = Math.floor(Date.now() / 1000);
      const signature = signWebhook(await secretOf(message.personId), message.id, timestamp, body);
      const headers = {
        'Content-Type': 'application/json; charset=utf-8',
        'Content-Length': Buffer.byteLength(body),
        'webhook-id': message.id,
        'webhook-timestamp': timestamp,
        'webhook-signature': signature,
      };
      const options = { ...guard, allowed: await allowed(), timeoutMs };
      return channelAnswer(await guardedRequest({ method: 'POST', url: message.address, headers, body }, options));
    } catch (error) {
      return channelError(error);
    }
  }
  return { send, close: () => undefined };
}

function signWebhook(secret: string, id: string, timestamp: number, body: string): string {
  const key = Buffer.from(secret.slice(secretPrefix.length), 'base64');
  return `v1,${createHmac('sha256', key).update(`${id}.${timestamp}.${body}`).digest('base64')}`;
}

function webhookBody({ notice, content, pageUrl, ack, message }: Job) {
  return {
    type: `${notice.about}.${notice.answer}`,
    timestamp: toInstant(notice.atMs),
    data: {
      person: message.personName,
      severity: severityOfRank(notice.rank),
      title: content.title,
      sentence: content.sentence,
      parts: content.parts,
      site: notice.siteId,
      pile: notice.pileId,
      alarm: notice.alarmId,
      page: pageUrl ?? null,
      /** Acknowledges by POST, once. */
      acknowledge: ack?.url ?? null,
    },
  };
}
