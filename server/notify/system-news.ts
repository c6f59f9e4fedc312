/**
 * Trouble of the server itself, of which its owners are notified: disk, broker. It never gives up on one that the journal could not
 * take, as long as the trouble stands.
 */
import type { FastifyBaseLogger } from 'fastify';
import type { SystemFacts } from '../../core/notify/other-contents.ts';
import type { Clock } from '../../shared/clock.ts';
import { message } from '../../shared/messages/message.ts';
import { rankOf } from '../../shared/notifications.ts';
import type { NoticeRecord } from '../../shared/store/notifications-store.ts';
import type { SystemNotice, SystemNotices } from '../health/system-notices.ts';

export interface SystemNewsParts {
  readonly notices: SystemNotices;
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly newId: () => string;
  readonly notify: (notices: readonly NoticeRecord[]) => Promise<void>;
  /** Where the outbox takes nothing: sends it without. */
  readonly notifyUnkept?: (notices: readonly NoticeRecord[]) => Promise<void>;
  readonly brokerHealth: () => { readonly state: string; readonly detail: string };
  /** Where several processes hear of the broker: whether this is the one that tells of it. */
  readonly isOurs?: () => boolean;
}

const lookEveryMs = 15_000;
/** A broker that is started anew is away for a moment. */
const brokerAwayMs = 3 * 60_000;

export class SystemNews {
  readonly #parts: SystemNewsParts;
  readonly #standing = new Map<SystemNotice['kind'], SystemNotice>();
  #owed: NoticeRecord[] = [];
  #timer: NodeJS.Timeout | undefined;
  #downSinceMs: number | undefined;
  readonly #stop: () => void;

  constructor(parts: SystemNewsParts) {
    this.#parts = parts;
    for (const notice of parts.notices.standing()) this.#heard(notice.kind, notice);
    this.#stop = parts.notices.onChange(({ kind, notice }) => this.#heard(kind, notice));
  }

  start(): void {
    this.#timer = setInterval(() => this.check(), lookEveryMs);
    this.#timer.unref();
    this.check();
  }

  close(): void {
    clearInterval(this.#timer);
    this.#stop();
  }

  check(machineNowMs = Date.now()): void {
    this.#checkBroker(machineNowMs);
    void this.#notify();
  }

  #checkBroker(machineNowMs: number): void {
    const { brokerHealth, notices, clock, isOurs = () => true } = this.#parts;
    if (!isOurs()) {
      this.#downSinceMs = undefined;
      this.#standing.delete('broker'); // that it is over is the other's to tell
      notices.clear('broker');
      return;
    }
    const { state, detail } = brokerHealth();
    if (state !== 'down') {
      this.#downSinceMs = undefined;
      notices.clear('broker');
      return;
    }
    this.#downSinceMs ??= machineNowMs;
    if (machineNowMs - this.#downSinceMs < brokerAwayMs || this.#standing.has('broker')) return;
    notices.raise({
      kind: 'broker',
      severity: 'critical',
      sinceMs: clock.nowMs(),
      seen: message('notice.system.broker', { detailText: detail }),
      todo: message('notice.system.broker.todo'),
    });
  }

  #heard(kind: SystemNotice['kind'], notice: SystemNotice | null): void {
    const before = this.#standing.get(kind);
    if (notice === null) {
      this.#standing.delete(kind);
      if (before) this.#owe(before, 'cleared');
    } else {
      this.#standing.set(kind, notice);
      if (before?.severity === notice.severity && !isAboutMore(notice, before)) return; // only its words changed
      this.#owe(notice, before === undefined ? 'first-raise' : 'got-worse');
    }
    void this.#notify();
  }

  #owe(notice: SystemNotice, answer: 'first-raise' | 'got-worse' | 'cleared'): void {
    const { clock, newId } = this.#parts;
    const nowMs = clock.nowMs();
    const facts: SystemFacts = {
      said: notice.seen,
      todo: notice.todo,
      short: message(`notice.system.short.${notice.kind}`),
    };
    this.#owed.push({
      id: newId(),
      key: `server/${notice.kind}/${nowMs}/${answer}`,
      about: 'server',
      answer,
      rank: rankOf(notice.severity === 'critical' ? 'urgent' : 'warning'),
      siteId: null,
      pileId: null,
      alarmId: null,
      personId: null,
      atMs: nowMs,
      dueMs: nowMs,
      facts,
    });
  }

  async #notify(): Promise<void> {
    const owed = this.#owed;
    if (owed.length === 0) return;
    this.#owed = [];
    try {
      await this.#parts.notify(owed);
    } catch (error) {
      void this.#parts.notifyUnkept?.(owed);
      this.#owed = [...owed, ...this.#owed]; // a full disk takes no message either: tried again at the next look
      this.#parts.log.warn({ err: error }, 'trouble of the server could not be put down to be notified');
    }
  }
}

const isAboutMore = (notice: SystemNotice, before: SystemNotice) =>
  (notice.about ?? []).some((one) => !before.about?.includes(one));
