/**
 * The part of the journal about people: who they are, what they signed in with, and what they changed.
 *
 * Secrets are never kept: passwords as argon2id, everything random as its SHA-256 digest (hexadecimal). Times of
 * sessions, links, tokens and attempts are the machine's own; those of the audit trail are the server's.
 */
import type { Message } from '../messages/message.ts';
import type { auditedWays, Role, Scope } from '../person.ts';

export interface PersonRecord {
  readonly id: string;
  readonly name: string;
  /** The name as it is compared, so that no two people look alike. */
  readonly nameKey: string;
  readonly role: Role;
  readonly passwordHash: string;
  readonly createdAtMs: number;
  /** BCP 47; null where they leave it to their browser. */
  readonly language: string | null;
}

export interface SessionRecord {
  /** For lists; the secret itself is in the person's cookie only. */
  readonly id: string;
  readonly digest: string;
  readonly personId: string;
  readonly madeAtMs: number;
  readonly seenAtMs: number;
  /** It ends then, however much it is used. */
  readonly endsAtMs: number;
  readonly address: string;
  readonly agent: string;
}

/** What a link lets its holder do once: become the first owner, join, or choose a new password. */
export const linkKinds = ['setup', 'invitation', 'reset'] as const;
export type LinkKind = (typeof linkKinds)[number];

export interface LinkRecord {
  readonly id: string;
  readonly digest: string;
  readonly kind: LinkKind;
  /** The role of whoever joins by it, or of the person whose password it resets. */
  readonly role: Role;
  readonly personId: string | null;
  /** Null for the program itself, at its start. */
  readonly madeBy: string | null;
  /** A person's id, 'here' or 'api-token'; null for what the program itself makes at its start. */
  readonly madeById: string | null;
  readonly madeAtMs: number;
  readonly endsAtMs: number;
}

export interface TokenRecord {
  readonly id: string;
  readonly digest: string;
  readonly personId: string;
  readonly name: string;
  readonly scope: Scope;
  readonly madeAtMs: number;
  readonly usedAtMs: number | null;
  readonly endsAtMs: number | null;
}

/** One ask of the slow-down: how long the next attempt waits, once this one is counted. */
export interface AttemptCount {
  readonly key: string;
  /** @param counted How often each key asked before this one was counted, this attempt included. */
  delayMs(failures: number, counted: ReadonlyMap<string, number>): number;
}

export interface AuditRecord {
  /** Sorts by time. */
  readonly id: string;
  readonly atMs: number;
  readonly personId: string | null;
  /** Null for somebody unknown. */
  readonly personName: string | null;
  readonly via: (typeof auditedWays)[number];
  /** What was done, e.g. "laid a pile". */
  readonly what: Message;
  /** What it was done to, e.g. "bay-one". */
  readonly subject: string | null;
  readonly address: string | null;
  /** Plain data without secrets; null for nothing. */
  readonly before: unknown;
  readonly after: unknown;
}

interface AuditQuestion {
  readonly personId?: string;
  /** Holds this in what was done or to what, in any case; or what was done is one of the codes, which say it. */
  readonly words?: { readonly text: string; readonly codes: readonly string[] };
  readonly fromMs?: number;
  /** Excluded. */
  readonly toMs?: number;
  readonly limit: number;
  /** The id of the last one of the page before. */
  readonly after?: string;
}

export interface PeopleJournal {
  readonly people: {
    /** In the order of their names. */
    list(): Promise<PersonRecord[]>;
    get(id: string): Promise<PersonRecord | undefined>;
    /** Those whose row is damaged, so that an owner can remove them; what is left of a name, else their id. */
    damaged(): Promise<{ id: string; name: string }[]>;
    byNameKey(nameKey: string): Promise<PersonRecord | undefined>;
    /** Also while somebody who may be one cannot be read: nobody becomes the first owner by a damaged row. */
    hasOwner(): Promise<boolean>;
    /** There is nobody who can be read as an owner, and somebody who cannot be read may be one. */
    ownersUnreadable(): Promise<boolean>;
    /**
     * Uses up a link and adds the person, both or neither.
     * @returns false when the link was used, has run out, or is for the first owner and there is one.
     * @throws {ConflictError} when the name is taken.
     */
    join(person: PersonRecord, linkDigest: string, nowMs: number): Promise<boolean>;
    /**
     * A change of role ends the person's sessions and the links they made; their devices stay, as warnings must go on.
     * @throws {ConflictError} when the name is taken or no owner would be left.
     */
    change(id: string, change: Partial<Pick<PersonRecord, 'name' | 'nameKey' | 'role' | 'language'>>): Promise<void>;
    /** Ends all they hold but the session named: sessions, tokens, devices that are notified, links they made. */
    setPassword(id: string, passwordHash: string, keepDigest?: string): Promise<void>;
    /** Ends sessions, tokens, devices that are notified, and links they made; they may sign in again. */
    endHeld(id: string): Promise<void>;
    /** The same password, hashed anew: ends nothing. */
    renewHash(id: string, passwordHash: string): Promise<void>;
    /** Uses up a link for a new password, sets it and ends all they hold, all or nothing. @returns false as for `join`. */
    resetPassword(id: string, passwordHash: string, linkDigest: string, nowMs: number): Promise<boolean>;
    /** Ends all they hold: sessions, tokens, devices, links for them and by them; the name stays in the trail. @throws {ConflictError} when no owner would be left. */
    remove(id: string, atMs: number): Promise<void>;
  };
  readonly sessions: {
    /** @param replaces Digest of the session that this browser had: it ends, and devices of the same person go with the new one. */
    add(session: SessionRecord, replaces?: string): Promise<void>;
    /** With whose it is; undefined once it has ended. */
    find(digest: string): Promise<{ session: SessionRecord; person: PersonRecord } | undefined>;
    /** Newest first. */
    list(personId?: string): Promise<SessionRecord[]>;
    seen(digest: string, seenAtMs: number): Promise<void>;
    /** Devices signed up by what ends are notified no more; where all of a person's end, all their devices. @returns how many sessions ended. */
    end(which: { digest: string } | { personId: string; id?: string; exceptDigest?: string }): Promise<number>;
    /** Forgets what has run out. Devices stay: nobody who merely did not look for a week shall miss a warning. */
    cleanUp(nowMs: number, seenBeforeMs: number): Promise<void>;
  };
  readonly links: {
    add(link: LinkRecord): Promise<void>;
    /** Not used, not run out, and its maker may still invite. */
    find(digest: string, nowMs: number): Promise<LinkRecord | undefined>;
    open(nowMs: number): Promise<LinkRecord[]>;
    remove(id: string): Promise<boolean>;
  };
  readonly tokens: {
    add(token: TokenRecord): Promise<void>;
    find(digest: string): Promise<{ token: TokenRecord; person: PersonRecord } | undefined>;
    list(personId?: string): Promise<TokenRecord[]>;
    used(id: string, usedAtMs: number): Promise<void>;
    /** Devices signed up with it are notified no more. @param personId Only when it is theirs. */
    remove(id: string, personId?: string): Promise<boolean>;
    /** @returns how many ended. */
    removeAll(personId: string): Promise<number>;
  };
  readonly attempts: {
    /**
     * Counts an attempt under each key, before anything is tried, so that many at once count as many.
     * @param quietMs After so long without one a key starts anew.
     * @returns 0 when it may go on; else how long to wait [ms], and nothing was counted.
     */
    take(counts: readonly AttemptCount[], nowMs: number, quietMs: number): Promise<number>;
    /** It was a success after all: forgets these keys, and takes one attempt back from those. */
    succeeded(forget: readonly string[], giveBack: readonly string[]): Promise<void>;
  };
  readonly audit: {
    add(record: AuditRecord): Promise<void>;
    /** Newest first. */
    list(question: AuditQuestion): Promise<AuditRecord[]>;
  };
}
