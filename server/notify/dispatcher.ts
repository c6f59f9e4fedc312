/**
 * Takes messages out of the outbox and brings them to people, one channel beside the other.
 *
 * At least once: a message is noted as sent after the other side took it. A crash between the two sends it a second
 * time, with the same Message-ID, Topic or webhook-id. It never holds up anything else: it waits for nobody but the
 * other side, each channel for itself.
 */
import type { FastifyBaseLogger } from 'fastify';
import { isSilenced } from '../../core/alarms/standing.ts';
import { isPast, pauseMs, troubleAfterTries } from '../../core/notify/backoff.ts';
import type { Clock } from '../../shared/clock.ts';
import { message as because, type Message } from '../../shared/messages/message.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { isServiceChannel } from '../../shared/notification-services/services.ts';
import { type NotificationChannel, notificationChannels } from '../../shared/notifications.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { KeptNotice, MessageRecord, NoticeRecord } from '../../shared/store/notifications-store.ts';
import type { Channel, ChannelAnswer, Job } from './channels/channel.ts';
import { saidOf } from './channels/http-answer.ts';
import type { MessageReader } from './channels/render-content.ts';
import { messageTo } from './fan-out.ts';
import { contentOf, pageOf } from './messages.ts';
import { alarmLinkPath, canAcknowledge, makeLink } from './notification-links.ts';
import type { Recipients } from './people.ts';

/** Longer than any attempt takes; whoever dies with messages in hand gives them back after this. */
const leaseMs = 45_000;
const atOnce = 4;

export interface DispatcherParts {
  readonly journal: Journal;
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly people: Recipients;
  readonly channels: Partial<Record<NotificationChannel, Channel>>;
  readonly publicUrl: string | undefined;
  /** Distinct from other processes on the same journal. */
  readonly taker: string;
  readonly newId: () => string;
  readonly random?: () => number;
  /** Something new stands in the outbox. */
  readonly kick: () => void;
}

export class Dispatcher {
  readonly #parts: DispatcherParts;
  readonly #inHand = new Map<NotificationChannel, Set<Promise<void>>>(
    notificationChannels.map((channel) => [channel, new Set()]),
  );

  constructor(parts: DispatcherParts) {
    this.#parts = parts;
  }

  /** Starts what can be started now, and does not wait for it. */
  async go(): Promise<void> {
    for (const channel of notificationChannels) await this.#goBy(channel);
  }

  get isBusy(): boolean {
    return [...this.#inHand.values()].some((set) => set.size > 0);
  }

  /** Waits for the attempts under way. */
  async rest(): Promise<void> {
    await Promise.all([...this.#inHand.values()].flatMap((set) => [...set]));
  }

  async #goBy(channel: NotificationChannel): Promise<void> {
    const inHand = this.#inHand.get(channel) ?? new Set();
    const room = atOnce - inHand.size;
    if (room <= 0) return;
    const { journal, clock, taker, log } = this.#parts;
    const machineNowMs = Date.now();
    const lease = { taker, machineNowMs, untilMs: machineNowMs + leaseMs };
    for (const message of await journal.notifications.messages.take(channel, clock.nowMs(), lease, room)) {
      const job = this.#bring(message)
        .catch((error) => log.error({ err: error, message: message.id }, 'a message could not be handled'))
        .finally(() => {
          inHand.delete(job);
          this.#parts.kick();
        });
      inHand.add(job);
    }
  }

  async #bring(message: MessageRecord): Promise<void> {
    const { journal, clock } = this.#parts;
    const notice = await journal.notifications.notices.get(message.noticeId);
    if (!notice) return;
    const over = await this.#isOver(notice, message);
    if (over !== undefined) return journal.notifications.messages.overtake(message.id, over, clock.nowMs());
    const startMs = Date.now();
    const answer = await this.#attempt(message, notice);
    await this.#note(message, notice, answer, Date.now() - startMs);
  }

  /** A message that had to wait, about what is over or in somebody's hands meanwhile, would only mislead. */
  async #isOver(notice: KeptNotice, message: MessageRecord): Promise<Message | undefined> {
    if (!(await this.#parts.people.isKnown(message.personId))) return because('delivery.no-access');
    if (notice.answer === 'confirmation') return this.#isSpent(notice, message);
    if (message.state !== 'held' && message.tries === 0) return undefined;
    if (notice.alarmId === null || notice.answer === 'cleared') return undefined;
    const alarm = await this.#parts.journal.alarms.get(notice.alarmId);
    if (alarm === undefined || alarm.state === 'unacknowledged') return undefined;
    if (alarm.state === 'acknowledged') return because('delivery.acknowledged-before');
    return because(isSilenced(alarm) ? 'delivery.shelved-before' : 'delivery.over-before');
  }

  /** A code that would no longer open anything. */
  async #isSpent(notice: KeptNotice, message: MessageRecord): Promise<Message | undefined> {
    const askedAtMs = 'codeFor' in notice.facts ? notice.facts.askedAtMs : undefined;
    const rows = await this.#parts.journal.notifications.mailAddresses.list(message.personId);
    const row = rows.find(({ address }) => address === message.address.toLowerCase());
    return row !== undefined && row.askedAtMs === askedAtMs ? undefined : because('delivery.code-spent');
  }

  async #attempt(message: MessageRecord, notice: KeptNotice): Promise<ChannelAnswer> {
    const { channels, people } = this.#parts;
    const channel = channels[message.channel];
    if (channel === undefined) {
      const by = isServiceChannel(message.channel) ? 'other' : message.channel;
      return { outcome: 'failed', detail: because('delivery.no-channel', { channel: by }) };
    }
    try {
      const reader = await people.readerOf(message.personId);
      return await channel.send(await this.#job(message, notice, reader));
    } catch (error) {
      return { outcome: 'failed', detail: saidOf(error) };
    }
  }

  async #job(message: MessageRecord, notice: KeptNotice, reader: MessageReader): Promise<Job> {
    const { journal, clock, people, publicUrl } = this.#parts;
    const mayAcknowledge = canAcknowledge(notice) && (await people.mayAcknowledge(message.personId));
    const secret = mayAcknowledge ? await makeLink(journal.notifications, notice, message, clock.nowMs()) : undefined;
    return {
      message,
      notice,
      content: await contentOf(this.#parts, notice, message.personName, reader),
      reader,
      pageUrl: pageOf(this.#parts, notice),
      ack:
        secret === undefined
          ? undefined
          : { secret, url: publicUrl === undefined ? undefined : `${publicUrl}${alarmLinkPath}${secret}` },
    };
  }

  async #note(message: MessageRecord, notice: KeptNotice, answer: ChannelAnswer, tookMs: number): Promise<void> {
    const { journal, clock, log, taker, random = Math.random } = this.#parts;
    const nowMs = clock.nowMs();
    const number = message.tries + 1;
    const sent = answer.outcome === 'sent';
    const givenUp =
      !sent && (answer.outcome === 'refused' || isPast(Math.max(message.madeAtMs, message.notBeforeMs), nowMs));
    const trouble = !sent && (givenUp || number === troubleAfterTries);
    const { channel, personName: person } = message;
    const about = { message: message.id, channel, person, detail: plainEnglish(answer.detail) };
    if (givenUp) log.error(about, 'a message was given up');
    else if (!sent) log.warn({ ...about, tries: number }, 'a message did not go through and is tried again');
    await journal.notifications.messages.attempted(taker, {
      attempt: { messageId: message.id, number, atMs: nowMs, tookMs, outcome: answer.outcome, detail: answer.detail },
      state: sent ? 'sent' : givenUp ? 'given-up' : message.state,
      reason: sent ? null : answer.detail,
      nextTryMs: sent ? 0 : Date.now() + Math.max(answer.retryAfterMs ?? 0, pauseMs(number, random())),
      doneAtMs: sent || givenUp ? nowMs : null,
      ...(trouble ? await this.#askOthers(message, notice) : {}),
    });
  }

  /** The same person by what they have switched off, and when nobody else has heard of it, another person. */
  async #askOthers(
    message: MessageRecord,
    notice: KeptNotice,
  ): Promise<{ messages?: MessageRecord[]; notices?: NoticeRecord[] }> {
    if (['test', 'confirmation', 'summary', 'measure-due', 'cleared'].includes(notice.answer)) return {};
    const { journal, people, clock, newId } = this.#parts;
    const now = await journal.notifications.notices.get(notice.id);
    if (now?.messages.some(({ state }) => state === 'sent')) return {};
    const listener = (await people.listeners()).find(({ personId }) => personId === message.personId);
    const times = { nowMs: clock.nowMs(), machineNowMs: Date.now(), newId };
    const messages = listener
      ? listener.spareChannels.map((channel) => messageTo(listener, channel, notice, times))
      : [];
    if (notice.about !== 'alarm' && notice.about !== 'site') return { messages };
    const facts = { ...notice.facts, notReached: message.personName };
    const { state: _, joinedId: __, ...same } = notice;
    return {
      messages,
      notices: [
        {
          ...same,
          id: newId(),
          key: `${notice.id}/not-reached`,
          answer: 'not-reached',
          personId: null,
          atMs: times.nowMs,
          dueMs: times.nowMs,
          facts,
        },
      ],
    };
  }
}
