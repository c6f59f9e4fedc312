/**
 * A message to a device by web push (RFC 8030, encrypted as RFC 8291 has it, signed as RFC 8292). It never reaches
 * inwards: an endpoint is an address that a page gave.
 */
import type { Clock } from '../../../shared/clock.ts';
import { message } from '../../../shared/messages/message.ts';
import { render } from '../../../shared/messages/render.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { attemptTimeoutMs, type Channel, type ChannelAnswer, type Job } from './channel.ts';
import { type GuardedOptions, guardedRequest } from './guarded-request.ts';
import { channelAnswer, channelError } from './http-answer.ts';
import { type PushKeys, webPush } from './push-keys.ts';
import { contentLines, type MessageReader, readerOf } from './render-content.ts';

export interface PushOptions {
  readonly journal: Pick<Journal, 'notifications'>;
  readonly keys: Pick<PushKeys, 'pair'>;
  readonly clock: Clock;
  readonly allowed: () => Promise<readonly string[]>;
  /** Whom a push service may write to about this sender: mailto: or https:. */
  readonly contact: string;
  readonly timeoutMs?: number;
  readonly guard?: Pick<GuardedOptions, 'trust' | 'lookup'>;
}

/** How long a push service keeps it for a device that is away [s]. */
const livesS = 24 * 3600;

export function openPush(options: PushOptions): Channel {
  const { journal, keys, clock, allowed, contact, timeoutMs = attemptTimeoutMs / 2, guard = {} } = options;

  async function send(job: Job): Promise<ChannelAnswer> {
    const { message: sent, notice } = job;
    try {
      // Asked first: where the keys had to be made anew no device is left that could take it.
      const pair = await keys.pair();
      const device = (await journal.notifications.devices.list(sent.personId)).find(({ id }) => id === sent.address);
      if (!device) return { outcome: 'refused', detail: message('delivery.device-removed') };
      const details = (await webPush()).generateRequestDetails(
        { endpoint: device.endpoint, keys: { p256dh: device.p256dh, auth: device.auth } },
        JSON.stringify(pushPayload(job)),
        {
          vapidDetails: { subject: contact, ...pair },
          TTL: livesS,
          urgency: notice.rank >= 1 ? 'high' : 'normal',
          // At the service a second copy takes the place of the first (RFC 8030 section 5.4); 32 letters at most.
          topic: sent.id.replaceAll('-', '').slice(0, 32),
        },
      );
      const headers = details.headers as Record<string, string | number>;
      const body = details.body ?? Buffer.alloc(0);
      const ask = { method: 'POST' as const, url: device.endpoint, headers, body };
      const answer = await guardedRequest(ask, { ...guard, allowed: await allowed(), timeoutMs });
      return await noted(answer.status, channelAnswer(answer), device.id);
    } catch (error) {
      return channelError(error);
    }
  }

  async function noted(status: number, answer: ChannelAnswer, deviceId: string): Promise<ChannelAnswer> {
    if (answer.outcome === 'sent') await journal.notifications.devices.worked(deviceId, clock.nowMs());
    // RFC 8030 section 7.3: the subscription has ended, or never was.
    if (status !== 404 && status !== 410) return answer;
    await journal.notifications.devices.remove(deviceId);
    return { outcome: 'refused', detail: message('delivery.device-ended', { saidPart: answer.detail }) };
  }

  return { send, close: () => undefined };
}

/** What the service worker shows; within the 3,993 bytes that every push service takes (RFC 8291 section 4). */
export function pushPayload({ message: sent, notice, content, reader, ack }: Job) {
  return {
    // The same for every copy, so that the second takes the place of the first on the screen too.
    id: sent.id,
    tag: notice.alarmId ?? notice.id,
    title: content.title,
    body: cut(contentLines(content), 2_400),
    severity: notice.rank,
    path: notice.about === 'alarm' && notice.pileId !== null ? `/piles/${encodeURIComponent(notice.pileId)}` : '/',
    ...(ack === undefined ? {} : { acknowledge: ack.secret, words: wordsOf(reader) }),
  };
}

/** What the service worker says itself, which has no catalogue: in the language of whoever reads the rest. */
function wordsOf(reader: MessageReader) {
  const say = (code: PushCode) => render(message(code), readerOf(reader, 0));
  return {
    acknowledge: say('push.acknowledge'),
    done: say('push.done'),
    notDone: say('push.not-done'),
    failed: say('push.failed'),
    failedSays: say('push.failed.says'),
  };
}

type PushCode = 'push.acknowledge' | 'push.done' | 'push.not-done' | 'push.failed' | 'push.failed.says';

/** By bytes, as the limit is. */
function cut(text: string, mostBytes: number): string {
  if (Buffer.byteLength(text) <= mostBytes) return text;
  let kept = text.slice(0, mostBytes);
  while (Buffer.byteLength(kept) > mostBytes - 3) kept = kept.slice(0, -20);
  return `${kept}…`;
}
