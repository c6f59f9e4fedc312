/**
 * The delivery of warnings to people, as one part of the server. It never holds up ingest or watching: they write into
 * the outbox and go on.
 */
import { randomUUID } from 'node:crypto';
import type { FastifyBaseLogger } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import type { Config } from '../../shared/config.ts';
import { ConflictError, StoreError } from '../../shared/errors.ts';
import type { NotificationChannel } from '../../shared/notifications.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { KeptNotice, NoticeRecord } from '../../shared/store/notifications-store.ts';
import { msPerDay } from '../../shared/units.ts';
import type { PilePort } from '../pile/pile-port.ts';
import type { Channel } from './channels/channel.ts';
import type { PushKeys } from './channels/push-keys.ts';
import { type DeliveryHealth, deliveryHealth } from './delivery-health.ts';
import type { DeliverySettings } from './delivery-settings.ts';
import { Dispatcher } from './dispatcher.ts';
import { type FanOutContext, fanOut } from './fan-out.ts';
import { groupSilence } from './group-silence.ts';
import type { Heartbeat, HeartbeatState } from './heartbeat.ts';
import { MailConfirmation } from './mail-confirmation.ts';
import type { NotifyShare } from './notify-share.ts';
import { type KnownPerson, Recipients } from './people.ts';
import type { Receipts } from './receipts.ts';
import type { ServiceSettings } from './service-settings.ts';
import { setAside } from './set-aside.ts';
import { timedNotices } from './timed.ts';
import { UnkeptNotices } from './unkept-notices.ts';

/** Machine time between looks at the outbox when nobody calls. */
const lookMs = 1_000;
/** Machine time between looks at what becomes due by the clock alone. */
const timedMs = 5_000;
const cleanUpMs = 3_600_000;
/** How long it can be looked up what people were notified of. */
const keepNotificationsMs = 90 * msPerDay;
const leaseMs = 30_000;
const atOnce = 20;

export interface DeliveryParts {
  readonly config: Pick<Config, 'PUBLIC_URL' | 'SMTP_URL' | 'ALERT_MAIL_TO'>;
  readonly journal: Journal;
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  readonly known: () => Promise<readonly KnownPerson[]>;
  readonly watch: () => Pick<PilePort, 'all' | 'isSuppressed' | 'silenceOf'> | undefined;
  /** Absent where this process notifies of the whole farm. */
  readonly share?: NotifyShare | undefined;
  readonly channels: Partial<Record<NotificationChannel, Channel>>;
  readonly pushKeys: PushKeys;
  readonly settings: DeliverySettings;
  readonly heartbeat: Heartbeat;
  readonly services: ServiceSettings;
  readonly receipts: (people: Recipients) => Receipts;
  readonly newId: () => string;
  /** Whether no other process works on this journal. */
  readonly alone: boolean;
  readonly random?: () => number;
  /** The machine's clock, by which codes run out and what is sent by hand is counted; given by tests only. */
  readonly machineNowMs?: (() => number) | undefined;
}

export class Delivery {
  readonly people: Recipients;
  readonly pushKeys: PushKeys;
  readonly settings: DeliverySettings;
  readonly services: ServiceSettings;
  readonly receipts: Receipts;
  readonly mail: MailConfirmation;
  readonly #parts: DeliveryParts;
  readonly #dispatcher: Dispatcher;
  readonly #unkept: UnkeptNotices;
  readonly #taker = randomUUID();
  #timer: NodeJS.Timeout | undefined;
  #running: Promise<void> | undefined;
  #again = false;
  #closed = false;
  #timedAtMs = 0;
  #cleanedUpAtMs = 0;
  #failing = '';

  constructor(parts: DeliveryParts) {
    this.#parts = parts;
    this.pushKeys = parts.pushKeys;
    this.settings = parts.settings;
    const { journal, config } = parts;
    this.services = parts.services;
    this.people = new Recipients({
      notifications: journal.notifications,
      services: this.services,
      known: parts.known,
      canMail: parts.channels.email !== undefined,
      mailTo: config.ALERT_MAIL_TO,
    });
    this.receipts = parts.receipts(this.people);
    this.#unkept = new UnkeptNotices({ ...parts, people: this.people, publicUrl: config.PUBLIC_URL });
    this.mail = new MailConfirmation({
      ...parts,
      people: this.people,
      machineNowMs: parts.machineNowMs ?? Date.now,
      send: (notice) => this.notify([notice]),
    });
    this.#dispatcher = new Dispatcher({
      ...parts,
      people: this.people,
      publicUrl: config.PUBLIC_URL,
      taker: this.#taker,
      kick: () => this.kick(),
    });
  }

  async start(): Promise<void> {
    if (this.#parts.alone) await this.#parts.journal.notifications.messages.releaseAll();
    await this.#beside('push keys', () => this.pushKeys.check());
    this.kick();
    this.#parts.heartbeat.start();
    this.receipts.start();
  }

  /** Whether a channel is set up at all. */
  can(channel: NotificationChannel): boolean {
    return this.#parts.channels[channel] !== undefined;
  }

  heartbeat(): HeartbeatState {
    return this.#parts.heartbeat.state;
  }

  /** Looks at the outbox now. Cheap, and safe to call at any time. */
  kick(): void {
    if (this.#closed) return;
    this.#again = true;
    this.#running ??= this.#run();
  }

  /** As if its time had come: everything that is due by the clock is looked at too. */
  workNow(): void {
    this.#timedAtMs = 0;
    this.kick();
  }

  /** Resolves once nothing that is due now is left, and no attempt is under way. */
  async settled(): Promise<void> {
    do {
      await this.#running;
      await this.#dispatcher.rest();
    } while (this.#running !== undefined || this.#dispatcher.isBusy);
  }

  /** Writes something into the outbox and has it brought at once. */
  async notify(notices: readonly NoticeRecord[]): Promise<void> {
    await this.#parts.journal.notifications.notices.add(notices);
    this.kick();
  }

  /**
   * What people are to be notified of about a change that the journal does not take: by the outbox where that can still be written, else
   * straight away. Never throws.
   */
  async notifyUnkept(notices: readonly NoticeRecord[]): Promise<void> {
    try {
      await this.notify(notices);
    } catch {
      await this.#unkept.notify(notices);
    }
  }

  async health(): Promise<DeliveryHealth> {
    return deliveryHealth({ ...this.#parts, people: this.people, failing: this.#failing });
  }

  async close(): Promise<void> {
    this.#closed = true;
    clearTimeout(this.#timer);
    this.#parts.heartbeat.close();
    await this.receipts.close();
    for (const channel of Object.values(this.#parts.channels)) channel.close();
    await this.#running;
    await this.#dispatcher.rest();
  }

  async #run(): Promise<void> {
    clearTimeout(this.#timer);
    while (this.#again && !this.#closed) {
      this.#again = false;
      try {
        await this.#once();
        this.#failing = '';
      } catch (error) {
        const said = error instanceof Error ? error.message : String(error);
        if (said !== this.#failing)
          this.#parts.log.error({ err: error }, 'what people are to be notified of cannot be worked through');
        this.#failing = said;
      }
    }
    this.#running = undefined;
    if (!this.#closed) this.#timer = setTimeout(() => this.kick(), lookMs);
  }

  async #once(): Promise<void> {
    const machineNowMs = Date.now();
    if (machineNowMs - this.#timedAtMs >= timedMs) {
      this.#timedAtMs = machineNowMs;
      await this.#beside('timed notices', () =>
        timedNotices({ ...this.#parts, people: this.people, watch: this.#parts.watch() }),
      );
    }
    await this.#fanOutDue();
    await this.#dispatcher.go();
    if (machineNowMs - this.#cleanedUpAtMs >= cleanUpMs) {
      this.#cleanedUpAtMs = machineNowMs;
      await this.#parts.journal.notifications.messages.cleanUp(this.#parts.clock.nowMs() - keepNotificationsMs);
    }
  }

  /** One notice that cannot be worked out does not keep the others; it is tried again when its lease is over. */
  async #beside(what: string, work: () => Promise<void>): Promise<unknown> {
    try {
      await work();
      return undefined;
    } catch (error) {
      this.#parts.log.error({ err: error, what }, 'a notice could not be worked out; the rest goes on');
      return error;
    }
  }

  async #fanOutDue(): Promise<void> {
    const { journal, clock } = this.#parts;
    for (;;) {
      const machineNowMs = Date.now();
      const lease = { taker: this.#taker, machineNowMs, untilMs: machineNowMs + leaseMs };
      const due = await journal.notifications.notices.take(clock.nowMs(), lease, atOnce);
      let failed: unknown;
      let doneCount = 0;
      for (const notice of due) {
        const error = await this.#beside(`notice "${notice.id}"`, () => this.#fanOutOrSetAside(notice));
        if (error === undefined) doneCount += 1;
        else failed = error;
      }
      if (doneCount === 0 && failed !== undefined) throw failed; // none could be: it is more than one bad row
      if (due.length < atOnce) return;
    }
  }

  async #fanOutOrSetAside(notice: KeptNotice): Promise<void> {
    try {
      await this.#fanOut(notice);
    } catch (error) {
      // What the journal could not do just now is done later.
      if (error instanceof StoreError || error instanceof ConflictError) throw error;
      const { journal, clock, log, newId } = this.#parts;
      log.error({ err: error, notice: notice.id, alarm: notice.alarmId }, 'a notice cannot be read and is set aside');
      const pile = notice.pileId === null ? undefined : await journal.piles.get(notice.pileId);
      await journal.notifications.notices.fanOut(setAside(notice, pile?.name, clock.nowMs(), newId));
      this.#again = true; // the one to the owners is new
    }
  }

  async #fanOut(notice: KeptNotice): Promise<void> {
    const { journal, log, newId } = this.#parts;
    const grouped = await groupSilence(notice, journal, newId);
    if (grouped) {
      await journal.notifications.notices.fanOut(grouped);
      this.#again = true; // the notice of the site is new
      return;
    }
    const fanned = fanOut(notice, await this.#context(notice));
    if (notice.answer === 'first-raise' && fanned.messages?.length === 0) {
      log.warn({ alarm: notice.alarmId }, 'a warning was raised and nobody is set up to be notified of it');
    }
    const { messages = [] } = fanned;
    await journal.notifications.notices.fanOut({ ...fanned, messages: this.#unkept.settle(notice.key, messages) });
  }

  async #context(notice: KeptNotice): Promise<FanOutContext> {
    const { journal, clock, newId } = this.#parts;
    const alarmIds = notice.alarmId === null ? [] : [notice.alarmId];
    const [alarm, notified, [current], escalations, listeners] = await Promise.all([
      notice.alarmId === null ? undefined : journal.alarms.get(notice.alarmId).catch(() => undefined),
      journal.notifications.notices.notifiedOf(alarmIds),
      journal.notifications.escalations.steps(alarmIds),
      journal.notifications.escalations.list(),
      this.people.listeners(),
    ]);
    return {
      nowMs: clock.nowMs(),
      machineNowMs: Date.now(),
      listeners,
      // How far the order was gone through is kept with the alarm: where that is not kept, everybody is notified at once.
      order: alarm && escalations.find(({ siteId }) => siteId === notice.siteId),
      step: current?.step ?? -1,
      notifiedBefore: new Set(notified.flatMap(({ personId, reached }) => (reached ? [personId] : []))),
      approached: new Set(notified.map(({ personId }) => personId)),
      newId,
    };
  }
}
