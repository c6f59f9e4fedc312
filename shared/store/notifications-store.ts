/**
 * The part of the journal that holds what people are notified of: the outbox and its surroundings.
 *
 * A notice is one thing to tell; it is fanned out into messages, one per person and channel; each message has its attempts.
 * Times named `...AtMs`, `dueMs` and `notBeforeMs` are the server's; `nextTryMs` and leases are the machine's.
 */
import type { Message } from '../messages/message.ts';
import type { NoticeFacts } from '../notice-facts.ts';
import type {
  AttemptOutcome,
  KeptMailStanding,
  MessageState,
  NoticeReason,
  NoticeSubject,
  NotificationChannel,
  Preferences,
} from '../notifications.ts';

export interface NoticeRecord {
  readonly id: string;
  /** The same key again is the same notice, and is not kept twice. */
  readonly key: string;
  readonly about: NoticeSubject;
  readonly answer: NoticeReason;
  /** 0-3, as severities. */
  readonly rank: number;
  readonly siteId: string | null;
  readonly pileId: string | null;
  readonly alarmId: string | null;
  /** For this person only; null for whoever wants to be notified. */
  readonly personId: string | null;
  readonly atMs: number;
  readonly dueMs: number;
  /** What the words are made of. */
  readonly facts: NoticeFacts;
}

export interface KeptNotice extends NoticeRecord {
  /** `joined`: notified as part of another one. `dropped`: was over, or suppressed, before it was notified. */
  /** Set aside: its facts cannot be read, so nobody can be notified of it. */
  readonly state: 'new' | 'fanned-out' | 'joined' | 'dropped' | 'set-aside';
  readonly joinedId: string | null;
}

export interface MessageRecord {
  readonly id: string;
  readonly noticeId: string;
  readonly personId: string;
  readonly personName: string;
  readonly channel: NotificationChannel;
  /** What the channel needs to find the person: an address, a device's id, a URL. */
  readonly address: string;
  /** As it may be shown to others. */
  readonly addressLabel: string;
  readonly rank: number;
  readonly state: MessageState;
  readonly reason: Message | null;
  readonly madeAtMs: number;
  readonly notBeforeMs: number;
  readonly tries: number;
  readonly nextTryMs: number;
  readonly doneAtMs: number | null;
  readonly seenAtMs: number | null;
}

export interface AttemptRecord {
  readonly messageId: string;
  readonly number: number;
  readonly atMs: number;
  readonly tookMs: number;
  readonly outcome: AttemptOutcome;
  readonly detail: Message;
}

/** Who takes work, and until when nobody else may; one that dies loses it when the lease is over. */
export interface Lease {
  readonly taker: string;
  readonly machineNowMs: number;
  readonly untilMs: number;
}

export interface PushDevice {
  readonly id: string;
  readonly personId: string;
  readonly endpoint: string;
  readonly p256dh: string;
  readonly auth: string;
  readonly label: string;
  readonly addedAtMs: number;
  readonly lastOkAtMs: number | null;
  /** The id of the session or token that signed it up: the device ends when that is ended. Null where nobody is known by name. */
  readonly madeWith: string | null;
}

/** What became of a device whose browser says that it is still there. */
export type DeviceHere = 'known' | 'moved' | 'unknown' | 'anothers';

/** An e-mail address of a person, in small letters. Times are the machine's. */
export interface MailAddress {
  readonly personId: string;
  readonly address: string;
  readonly standing: KeptMailStanding;
  readonly sinceMs: number;
  /** When the newest code was asked for, and how often one was entered since. */
  readonly askedAtMs: number | null;
  readonly tries: number;
}

export interface NotificationLink {
  /** SHA-256 of the secret. */
  readonly digest: string;
  readonly noticeId: string;
  readonly personId: string;
  readonly personName: string;
  readonly channel: NotificationChannel;
  readonly expiresAtMs: number;
  readonly usedAtMs: number | null;
}

export interface EscalationRecord {
  readonly siteId: string;
  /** Who is notified first, second ... */
  readonly personIds: readonly string[];
  readonly afterMin: number;
}

/** How far an alarm was handed on: the index in the order of who was notified last, and when. */
export interface EscalationStepRecord {
  readonly alarmId: string;
  readonly step: number;
  readonly atMs: number;
}

/** What a notice became; all of it or nothing. */
export interface FanOut {
  readonly noticeId: string;
  readonly state: 'fanned-out' | 'joined' | 'dropped' | 'set-aside';
  readonly joinedId?: string | null;
  readonly messages?: readonly MessageRecord[];
  readonly notices?: readonly NoticeRecord[];
  readonly step?: EscalationStepRecord;
}

/** How an attempt went and what follows; all of it or nothing. */
interface Attempted {
  readonly attempt: AttemptRecord;
  readonly state: MessageState;
  readonly reason: Message | null;
  readonly nextTryMs: number;
  readonly doneAtMs: number | null;
  readonly messages?: readonly MessageRecord[];
  readonly notices?: readonly NoticeRecord[];
}

export interface SentMessage extends MessageRecord {
  readonly attempts: readonly AttemptRecord[];
}
export interface ListedNotice extends KeptNotice {
  readonly messages: readonly SentMessage[];
}

/** The key of the notice that says a silent site, or trouble of the server, is over: that of its first, and this. */
export const overEnding = '/over';

export interface NotifiedPerson {
  readonly alarmId: string;
  readonly personId: string;
  /** When this person was, or will be, notified last. */
  readonly lastAtMs: number;
  /** Notices so far. */
  readonly count: number;
  /** Whether something went out to them, or is about to. */
  readonly reached: boolean;
  /** The newest of those notices. */
  readonly newest: KeptNotice;
}

export interface NotificationsStore {
  readonly notices: {
    add(notices: readonly NoticeRecord[]): Promise<void>;
    /** Takes what is due and nobody has taken, the most pressing first. */
    take(nowMs: number, lease: Lease, limit: number): Promise<KeptNotice[]>;
    /** @returns false when somebody else was quicker: then nothing of it is kept. */
    fanOut(fanned: FanOut): Promise<boolean>;
    /** How many were set aside since. */
    setAside(sinceMs: number): Promise<number>;
    get(id: string): Promise<ListedNotice | undefined>;
    byKey(key: string): Promise<KeptNotice | undefined>;
    /** Newest first, with what became of each. */
    ofAlarm(alarmId: string): Promise<ListedNotice[]>;
    /** Those joined to another one. */
    joinedTo(id: string): Promise<KeptNotice[]>;
    /** Who was approached about each of these alarms. */
    notifiedOf(alarmIds: readonly string[]): Promise<NotifiedPerson[]>;
    /** Silent sites that people were notified of and that have not been reported to speak again. */
    openSites(sinceMs: number): Promise<KeptNotice[]>;
  };
  readonly messages: {
    take(channel: NotificationChannel, nowMs: number, lease: Lease, limit: number): Promise<MessageRecord[]>;
    /** @returns false when it was no longer ours to tell of. */
    attempted(taker: string, attempted: Attempted): Promise<boolean>;
    /** Ends one that needs no attempt. */
    overtake(id: string, reason: Message, atMs: number): Promise<void>;
    /** Given up, not yet seen by anybody, newest first. */
    undelivered(limit: number): Promise<(SentMessage & { notice: KeptNotice })[]>;
    seen(id: string, atMs: number): Promise<boolean>;
    /** How many stand in each state, and since when the eldest waits. */
    counts(): Promise<
      { channel: NotificationChannel; state: MessageState; count: number; oldestMs: number; unseen: number }[]
    >;
    /** Lets go of whatever a former run had taken; only for who holds the journal alone. */
    releaseAll(): Promise<void>;
    /** Removes what is done with and older. @returns how many notices went. */
    cleanUp(beforeMs: number): Promise<number>;
  };
  readonly preferences: {
    list(): Promise<{ personId: string; preferences: Preferences }[]>;
    set(personId: string, preferences: Preferences): Promise<void>;
  };
  readonly devices: {
    list(personId?: string): Promise<PushDevice[]>;
    /** The same endpoint again takes the place of what was there. */
    keep(device: PushDevice): Promise<void>;
    /** @param personId Only when it is theirs. */
    remove(id: string, personId?: string): Promise<boolean>;
    /** Those that cannot be read too. @returns how many there were. */
    removeAll(): Promise<number>;
    /**
     * A browser says who sits there now. Their own device goes with this session from now on (`moved`); one of somebody
     * else is removed (`anothers`): what they are notified of is no longer this person's to see.
     */
    here(endpoint: string, personId: string, madeWith: string): Promise<DeviceHere>;
    worked(id: string, atMs: number): Promise<void>;
  };
  readonly mailAddresses: {
    list(personId?: string): Promise<MailAddress[]>;
    /** A code is on its way: those before count no more. */
    ask(personId: string, address: string, askedAtMs: number): Promise<void>;
    /** Counts an attempt, before it is looked at. @returns the address with this attempt counted. */
    tried(personId: string, address: string): Promise<MailAddress | undefined>;
    /** From now on it is the person's only one. */
    confirm(personId: string, address: string, atMs: number): Promise<void>;
    forget(personId: string): Promise<void>;
  };
  readonly links: {
    add(link: NotificationLink): Promise<void>;
    get(digest: string): Promise<NotificationLink | undefined>;
    /** @returns false when it was used before. */
    use(digest: string, atMs: number): Promise<boolean>;
  };
  readonly escalations: {
    list(): Promise<EscalationRecord[]>;
    set(record: EscalationRecord): Promise<void>;
    steps(alarmIds: readonly string[]): Promise<EscalationStepRecord[]>;
    setStep(step: EscalationStepRecord): Promise<void>;
  };
}
