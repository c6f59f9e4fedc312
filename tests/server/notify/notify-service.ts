/** Delivery alone, over a journal in memory, with channels that write down what they are given. */
import pino from 'pino';
import { type AlarmMachine, startAlarm } from '../../../core/alarms/alarm.ts';
import type { Hold } from '../../../core/alarms/hold.ts';
import type { Channel, ChannelAnswer, Job } from '../../../server/notify/channels/channel.ts';
import { PushKeys } from '../../../server/notify/channels/push-keys.ts';
import { Delivery } from '../../../server/notify/delivery.ts';
import { DeliverySettings } from '../../../server/notify/delivery-settings.ts';
import { Heartbeat } from '../../../server/notify/heartbeat.ts';
import type { KnownPerson } from '../../../server/notify/people.ts';
import { Receipts } from '../../../server/notify/receipts.ts';
import { ServiceSettings } from '../../../server/notify/service-settings.ts';
import { verbatim } from '../../../shared/messages/message.ts';
import { type Preferences, preferencesSchema, rankOf } from '../../../shared/notifications.ts';
import { openSqliteJournal } from '../../../shared/store/journal/sqlite-journal.ts';
import type { AlarmRecord, Journal } from '../../../shared/store/journal.ts';
import type { NoticeRecord } from '../../../shared/store/notifications-store.ts';
import type { AlarmState, Severity, WarningKind } from '../../../shared/warning.ts';
import { until } from '../../helpers/until.ts';
import { branBatch, branPile, yard } from '../../shared/store/journal-sample.ts';

export const minuteMs = 60_000;
/** A Sunday at noon. */
export const noonMs = Date.UTC(2031, 5, 1, 12);

interface Sent {
  readonly person: string;
  readonly channel: string;
  readonly reason: string;
  readonly sentence: string;
  readonly messageId: string;
}

export interface Service {
  nowMs: number;
  readonly journal: Journal;
  readonly delivery: Delivery;
  readonly sent: Sent[];
  /** What a channel answers; "sent" when unset. */
  answer: (job: Job) => ChannelAnswer | Promise<ChannelAnswer>;
  silence: 'silent' | 'speaks' | 'alone';
  /** Whether people are notified here by the clock of what belongs to this site. */
  isOurs: (siteId: string | null) => boolean;
  readonly suppressed: Set<string>;
  person(id: string, preferences?: Partial<Preferences>, role?: KnownPerson['role']): Promise<void>;
  /** Raises an alarm as the watch would, with its notice in the same transaction. */
  raise(id: string, options?: RaiseOptions): Promise<void>;
  /** Moves an alarm, with a notice when there is one to give. */
  move(id: string, state: AlarmState, answer?: NoticeRecord['answer']): Promise<void>;
  /** Lets minutes of the server pass, a look at the outbox after each step. */
  pass(minutes: number, stepMin?: number): Promise<void>;
  /** Who was notified why since the last time this was asked. */
  notified(): Promise<string[]>;
  close(): Promise<void>;
}

interface RaiseOptions {
  readonly kind?: WarningKind;
  readonly severity?: Severity;
  readonly position?: AlarmRecord['position'];
  /** When its whole site fell silent. */
  readonly siteSilentSinceMs?: number;
}

function machineOf(state: AlarmState, nowMs: number): AlarmMachine {
  const over = state === 'normal' || state === 'returned-unacknowledged';
  const hold: Hold = { condition: over ? 'clear' : 'raised', sinceMs: nowMs };
  return { ...startAlarm(nowMs), state, hold };
}

export async function openService(): Promise<Service> {
  const journal = await openSqliteJournal(':memory:');
  await journal.sites.add(yard);
  await journal.piles.add(branPile, branBatch);
  const people: KnownPerson[] = [];
  const sent: Sent[] = [];
  const alarms = new Map<string, AlarmRecord>();
  let serial = 0;
  let read = 0;
  const newId = () => `id-${++serial}`;
  const channel: Channel = {
    async send(job) {
      const answer = await service.answer(job);
      if (answer.outcome === 'sent') {
        const { personName: person, channel: by, id } = job.message;
        sent.push({ person, channel: by, reason: job.notice.answer, sentence: job.content.sentence, messageId: id });
      }
      return answer;
    },
    close: () => undefined,
  };
  const clock = { nowMs: () => service.nowMs, speed: 1 };
  const log = pino({ level: 'silent' });
  const delivery = new Delivery({
    config: { PUBLIC_URL: undefined, SMTP_URL: 'smtp://127.0.0.1', ALERT_MAIL_TO: undefined },
    journal,
    clock,
    log,
    known: async () => people,
    watch: () => ({
      all: () => [],
      isSuppressed: (id) => service.suppressed.has(id),
      silenceOf: () => ({ answer: service.silence }),
    }),
    share: { ours: async () => service.isOurs, everyPile: async () => [] },
    channels: { email: channel, webhook: channel },
    pushKeys: new PushKeys({ journal, clock, log, newId }),
    settings: new DeliverySettings(journal),
    services: new ServiceSettings(journal),
    receipts: (people) =>
      new Receipts({
        journal,
        clock,
        log,
        people,
        services: { values: async () => undefined },
        allowed: async () => [],
        watch: { handleAlarm: async () => 'done' as never },
      }),
    heartbeat: new Heartbeat({ url: async () => undefined, allowed: async () => [], unwell: async () => undefined }),
    newId,
    alone: true,
    random: () => 0,
  });

  const factsOf = (alarm: AlarmRecord, since?: number) => ({
    kind: alarm.kind,
    position: alarm.position,
    severity: alarm.severity,
    seen: verbatim('Something was seen.'),
    todo: verbatim('Do something.'),
    byMs: null,
    caution: null,
    raisedAtMs: alarm.raisedAtMs,
    ...(since === undefined ? {} : { site: { sinceMs: since, probeCount: 5, pileNames: [branPile.name] } }),
  });
  const noticeOf = (alarm: AlarmRecord, answer: NoticeRecord['answer'], since?: number): NoticeRecord => ({
    id: newId(),
    key: `alarm/${alarm.id}/${service.nowMs}/${answer}`,
    about: 'alarm',
    answer,
    rank: rankOf(alarm.severity),
    siteId: yard.id,
    pileId: alarm.pileId,
    alarmId: alarm.id,
    personId: null,
    atMs: service.nowMs,
    dueMs: service.nowMs,
    facts: factsOf(alarm, since),
  });
  async function keep(alarm: AlarmRecord, notices: NoticeRecord[]) {
    alarms.set(alarm.id, alarm);
    await journal.watch.keep({ alarms: [alarm], steps: [], watch: null, notices });
    await settle();
  }
  /** Until nothing due is left. */
  async function settle() {
    delivery.workNow();
    await until('the outbox to settle', async () => {
      await delivery.settled();
      return true;
    });
  }

  const service: Service = {
    nowMs: noonMs,
    journal,
    delivery,
    sent,
    answer: () => ({ outcome: 'sent', detail: verbatim('taken') }),
    silence: 'speaks',
    isOurs: () => true,
    suppressed: new Set(),
    async person(id, preferences = {}, role = 'keeper') {
      people.push({ id, name: id, role, language: null });
      const email = { on: true, address: `${id}@saltmere.example` };
      const whole = preferencesSchema.parse({ email, ...preferences });
      await journal.notifications.preferences.set(id, whole);
      if (whole.email.address !== '') await journal.notifications.mailAddresses.confirm(id, whole.email.address, 0);
    },
    async raise(id, { kind = 'overheating', severity = 'warning', position = null, siteSilentSinceMs } = {}) {
      const alarm: AlarmRecord = {
        id,
        pileId: branPile.id,
        kind,
        position,
        severity,
        state: 'unacknowledged',
        raisedAtMs: service.nowMs,
        changedAtMs: service.nowMs,
        closedAtMs: null,
        machine: machineOf('unacknowledged', service.nowMs),
        words: { seen: verbatim('Something was seen.'), todo: verbatim('Do something.'), byMs: null, caution: null },
      };
      await keep(alarm, [noticeOf(alarm, 'first-raise', siteSilentSinceMs)]);
    },
    async move(id, state, answer) {
      const before = alarms.get(id);
      if (!before) throw new Error(`no alarm ${id}`);
      const alarm = {
        ...before,
        state,
        changedAtMs: service.nowMs,
        closedAtMs: state === 'normal' ? service.nowMs : null,
        machine: machineOf(state, service.nowMs),
      };
      await keep(alarm, answer === undefined ? [] : [noticeOf(alarm, answer)]);
    },
    async pass(minutes, stepMin = 5) {
      for (let passed = 0; passed < minutes; passed += stepMin) {
        service.nowMs += Math.min(stepMin, minutes - passed) * minuteMs;
        await settle();
      }
    },
    async notified() {
      await settle();
      const news = sent.slice(read).map(({ person, channel: by, reason }) => `${person} by ${by}: ${reason}`);
      read = sent.length;
      return news;
    },
    async close() {
      await delivery.close();
      await journal.close();
    },
  };
  return service;
}
