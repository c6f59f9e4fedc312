/**
 * One notice becomes messages, one per person and channel. It never sends anything, and tells nobody of the same thing
 * twice.
 */

import { firstStep } from '../../core/notify/escalation.ts';
import { isHazard, matchOf, type NotifyEvent, notifyAtMs } from '../../core/notify/who.ts';
import { message } from '../../shared/messages/message.ts';
import type { EscalationRecord, FanOut, KeptNotice, MessageRecord } from '../../shared/store/notifications-store.ts';
import type { ChannelAddress, Listener } from './people.ts';

export interface FanOutContext {
  readonly nowMs: number;
  readonly machineNowMs: number;
  readonly listeners: readonly Listener[];
  readonly order: EscalationRecord | undefined;
  /** How far the order was gone through for this alarm; -1 when it was not begun. */
  readonly step: number;
  /** Who was notified of this alarm before, and whom it was tried to tell. */
  readonly notifiedBefore: ReadonlySet<string>;
  readonly approached: ReadonlySet<string>;
  readonly newId: () => string;
}

/** @throws {RangeError} What the notice is to say cannot be read. */
export function fanOut(notice: KeptNotice, context: FanOutContext): FanOut {
  if ('lost' in notice.facts)
    throw new RangeError(`Cannot fan out notice "${notice.id}" as its facts must be readable`);
  const notifyEvent = notifyEventOf(notice);
  const matching = context.listeners.filter(
    (one) => one.channels.length > 0 && matchOf(one, notifyEvent) === 'matches',
  );
  const named = context.listeners.filter(({ personId }) => personId === notice.personId);
  const { notified, step: next } =
    notice.personId === null
      ? notifiedOf(notice, notifyEvent, matching, context)
      : { notified: named, step: undefined };
  return {
    noticeId: notice.id,
    state: 'fanned-out',
    messages: notified.flatMap((listener) => messagesTo(listener, notice, notifyEvent, context)),
    ...(next === undefined || notice.alarmId === null ? {} : { step: { alarmId: notice.alarmId, ...next } }),
  };
}

function notifiedOf(
  notice: KeptNotice,
  notifyEvent: NotifyEvent,
  matching: readonly Listener[],
  { order, step, notifiedBefore, approached, listeners, nowMs }: FanOutContext,
): { notified: readonly Listener[]; step: { step: number; atMs: number } | undefined } {
  const ids = order?.personIds ?? [];
  switch (notice.answer) {
    case 'first-raise': {
      const candidates = matching.map((one) => ({
        personId: one.personId,
        notifyAtMs: notifyAtMs(one, notifyEvent, nowMs),
      }));
      const { notified, next } = firstStep(ids, candidates, isHazard(notifyEvent), nowMs);
      return {
        notified: matching.filter((one) => notified.some(({ personId }) => personId === one.personId)),
        step: next,
      };
    }
    case 'got-worse':
      return {
        notified: matching.filter(({ personId }) => reached(ids, step, personId) || isHazard(notifyEvent)),
        step: undefined,
      };
    case 'cleared':
      return {
        notified: matching.filter(
          ({ personId, preferences }) => notifiedBefore.has(personId) && preferences.notifyCleared,
        ),
        step: undefined,
      };
    case 'not-reached': {
      // Whoever can be reached at all: first the rest of the order and whoever wants to be notified, else an owner.
      const others = matching.filter(({ personId }) => !approached.has(personId));
      const owners = listeners.filter((one) => one.isOwner && one.channels.length > 0 && !approached.has(one.personId));
      return { notified: others.length > 0 ? others : owners, step: undefined };
    }
    case 'reminder-due':
      return { notified: matching.filter(({ personId }) => notifiedBefore.has(personId)), step: undefined };
    default:
      return { notified: matching, step: undefined };
  }
}

/** Whether the order has come to this person, or they do not stand in it. */
function reached(order: readonly string[], step: number, personId: string): boolean {
  const own = order.indexOf(personId);
  return own < 0 || own <= Math.max(0, step);
}

export function notifyEventOf(notice: Pick<KeptNotice, 'about' | 'facts' | 'rank' | 'siteId'>): NotifyEvent {
  const kind =
    notice.about === 'alarm'
      ? 'kind' in notice.facts
        ? notice.facts.kind
        : null
      : notice.about === 'site'
        ? 'probe-silent'
        : null;
  return { about: notice.about, kind, rank: notice.rank, siteId: notice.siteId };
}

function messagesTo(
  listener: Listener,
  notice: KeptNotice,
  notifyEvent: NotifyEvent,
  context: FanOutContext,
): MessageRecord[] {
  const { nowMs } = context;
  const quietUntilMs = notifyAtMs(listener, notifyEvent, nowMs);
  const held = quietUntilMs > nowMs && !['test', 'confirmation', 'summary'].includes(notice.answer);
  return channelsOf(listener, notice).map((channel) => ({
    ...messageTo(listener, channel, notice, context),
    state: held ? 'held' : 'waiting',
    reason: held ? message('delivery.quiet-hours') : null,
    notBeforeMs: held ? quietUntilMs : nowMs,
    // Whoever asked for a code looks for it; to the others it is no trouble of the server.
    seenAtMs: notice.answer === 'confirmation' ? nowMs : null,
  }));
}

/** A code goes to the address it is for. A test goes by the channel it was asked for, switched on or not. */
function channelsOf(listener: Listener, notice: KeptNotice): readonly ChannelAddress[] {
  if ('codeFor' in notice.facts) {
    const { codeFor: address } = notice.facts;
    return [{ channel: 'email', address, label: address }];
  }
  if (notice.answer !== 'test') return listener.channels;
  if (!('channel' in notice.facts)) return [];
  const { channel, address } = notice.facts;
  return [...listener.channels, ...listener.spareChannels].filter(
    (one) => one.channel === channel && (address === undefined || one.address === address),
  );
}

export function messageTo(
  { personId, name }: Listener,
  { channel, address, label }: ChannelAddress,
  { id: noticeId, rank }: Pick<KeptNotice, 'id' | 'rank'>,
  { nowMs, machineNowMs, newId }: Pick<FanOutContext, 'nowMs' | 'machineNowMs' | 'newId'>,
): MessageRecord {
  return {
    id: newId(),
    noticeId,
    personId,
    personName: name,
    channel,
    address,
    addressLabel: label,
    rank,
    state: 'waiting',
    reason: null,
    madeAtMs: nowMs,
    notBeforeMs: nowMs,
    tries: 0,
    nextTryMs: machineNowMs,
    doneAtMs: null,
    seenAtMs: null,
  };
}
