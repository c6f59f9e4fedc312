/**
 * Tells people of what the outbox cannot take: straight from memory, by every channel that works.
 *
 * What went out so is remembered: once the outbox takes the notice after all, it is noted there as sent and not sent again.
 */
import { randomUUID } from 'node:crypto';
import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import { fallback } from '../../shared/messages/language.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import type { NotificationChannel } from '../../shared/notifications.ts';
import type { KeptNotice, MessageRecord, NoticeRecord } from '../../shared/store/notifications-store.ts';
import type { Channel } from './channels/channel.ts';
import type { MessageReader } from './channels/render-content.ts';
import { fanOut } from './fan-out.ts';
import { contentOf, type MessageParts, pageOf } from './messages.ts';
import type { Listener, Recipients } from './people.ts';

export interface UnkeptParts {
  readonly journal: MessageParts['journal'];
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly people: Recipients;
  readonly channels: Partial<Record<NotificationChannel, Channel>>;
  readonly publicUrl: string | undefined;
}

/** News that cannot wait for the outbox; that something is over can. */
const pressing: readonly NoticeRecord['answer'][] = ['first-raise', 'got-worse'];

export class UnkeptNotices {
  readonly #parts: UnkeptParts;
  /** Messages that went out, by the key of their notice. */
  readonly #sent = new Map<string, MessageRecord[]>();
  #working: Promise<void> = Promise.resolve();
  #listeners: readonly Listener[] = [];

  constructor(parts: UnkeptParts) {
    this.#parts = parts;
  }

  /** Sends what has not gone out yet; may be called again with the same notices. */
  notify(notices: readonly NoticeRecord[]): Promise<void> {
    this.#working = this.#working.then(async () => {
      for (const notice of notices) {
        if (!pressing.includes(notice.answer)) continue;
        await this.#notifyOne(notice).catch((error) => {
          this.#parts.log.error({ err: error, notice: notice.key }, 'a warning that cannot be kept could not be sent');
        });
      }
    });
    return this.#working;
  }

  /** The same messages, with those that went out already as sent. */
  settle(key: string, messages: readonly MessageRecord[]): MessageRecord[] {
    const sent = this.#sent.get(key) ?? [];
    this.#sent.delete(key);
    return messages.map((message) => {
      const before = sent.find((one) => isSame(one, message));
      return before ? { ...before, noticeId: message.noticeId } : message;
    });
  }

  async #notifyOne(notice: NoticeRecord): Promise<void> {
    const { clock, log } = this.#parts;
    const sent = this.#sent.get(notice.key) ?? [];
    if (!this.#sent.has(notice.key)) {
      log.error(
        { pile: notice.pileId, facts: notice.facts },
        'a warning cannot be kept; it is sent without the outbox',
      );
    }
    this.#sent.set(notice.key, sent);
    const kept: KeptNotice = { ...notice, state: 'new', joinedId: null };
    const nowMs = clock.nowMs();
    const { messages = [] } = fanOut(kept, {
      nowMs,
      machineNowMs: Date.now(),
      listeners: await this.#everybody(),
      order: undefined, // who is notified first needs the journal to go on with the next; now all are
      step: -1,
      notifiedBefore: new Set(),
      approached: new Set(),
      newId: randomUUID,
    });
    for (const message of messages) {
      if (message.state !== 'waiting' || sent.some((one) => isSame(one, message))) continue;
      if (await this.#send(message, notice)) sent.push({ ...message, state: 'sent', tries: 1, doneAtMs: nowMs });
    }
  }

  async #send(message: MessageRecord, notice: NoticeRecord): Promise<boolean> {
    const { journal, clock, log, people, channels, publicUrl } = this.#parts;
    const channel = channels[message.channel];
    if (!channel) return false;
    const reader = await people.readerOf(message.personId).catch(() => plainly);
    const content = await contentOf({ journal, clock, publicUrl }, notice, message.personName, reader).catch(() =>
      contentOf({ journal: noJournal, clock, publicUrl }, notice, message.personName, reader),
    );
    const answer = await channel.send({
      message,
      notice,
      content,
      reader,
      pageUrl: pageOf({ publicUrl }, notice),
      ack: undefined,
    });
    if (answer.outcome !== 'sent')
      log.warn({ channel: message.channel, detail: plainEnglish(answer.detail) }, 'a warning did not go through');
    return answer.outcome === 'sent';
  }

  /** As last known where the journal does not say. */
  async #everybody(): Promise<readonly Listener[]> {
    this.#listeners = await this.#parts.people.listeners().catch(() => this.#listeners);
    return this.#listeners;
  }
}

const plainly: MessageReader = { timeZone: 'UTC', unit: 'C', language: fallback };

/** Names are wanting then, and what other warnings ask for; the warning itself is not. */
const noJournal: MessageParts['journal'] = {
  piles: { get: async () => undefined },
  sites: { list: async () => [] },
  alarms: { open: async () => [] },
  settings: { get: async () => undefined, set: async () => undefined },
};

const isSame = (one: MessageRecord, other: MessageRecord) =>
  one.personId === other.personId && one.channel === other.channel && one.address === other.address;
