/**
 * Who is signed in.
 *
 * A session is a random id of 256 bits in a cookie, and its digest in the journal. It ends by itself when it was not
 * used for a week, and in any case after thirty days (NIST SP 800-63B, section 4.1.3: sign in anew at least every
 * thirty days). It never trusts what it remembers for longer than two seconds: another process may have ended the
 * session.
 */
import type { FastifyBaseLogger, FastifyReply, FastifyRequest } from 'fastify';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PersonRecord, SessionRecord } from '../../../shared/store/people-journal.ts';
import { msPerDay, msPerMinute } from '../../../shared/units.ts';
import { deviceCookie, readCookie, setCookie } from './cookies.ts';
import { Remembered } from './remembered.ts';
import { digestOf, newId, newSecret } from './secrets.ts';

const sessionLengths = { idleMs: 7 * msPerDay, longestMs: 30 * msPerDay, seenEveryMs: 5 * msPerMinute } as const;

const deviceKeySetting = 'device-key';

interface KnownSession {
  readonly session: SessionRecord;
  readonly person: PersonRecord;
}

export interface SessionParts {
  readonly journal: Journal;
  readonly log: FastifyBaseLogger;
  /** The machine's clock: a practice server whose time runs fast does not sign people out faster. */
  readonly nowMs: () => number;
}

export class Sessions {
  readonly #parts: SessionParts;
  readonly #remembered: Remembered<KnownSession>;
  readonly #waiting = new Set<() => void>();
  #deviceKey: string | undefined;

  constructor(parts: SessionParts) {
    this.#parts = parts;
    this.#remembered = new Remembered(parts.nowMs);
  }

  async find(secret: string): Promise<KnownSession | undefined> {
    const { journal, nowMs, log } = this.#parts;
    const digest = digestOf(secret);
    const known = await this.#remembered.get(digest, () => journal.sessions.find(digest));
    const now = nowMs();
    if (!known || known.session.endsAtMs <= now || known.session.seenAtMs < now - sessionLengths.idleMs)
      return undefined;
    if (known.session.seenAtMs < now - sessionLengths.seenEveryMs) {
      this.#remembered.set(digest, { ...known, session: { ...known.session, seenAtMs: now } });
      journal.sessions.seen(digest, now).catch((error) => log.error({ err: error }, 'use of a session not kept'));
    }
    return known;
  }

  /** Signs a person in under a new id, whatever id the browser came with (OWASP: session fixation). */
  async start(request: FastifyRequest, reply: FastifyReply, person: PersonRecord): Promise<void> {
    const { journal, nowMs } = this.#parts;
    const now = nowMs();
    await journal.sessions.cleanUp(now, now - sessionLengths.idleMs);
    const before = readCookie(request, 'session');
    const secret = newSecret();
    const session = {
      id: newId(),
      digest: digestOf(secret),
      personId: person.id,
      madeAtMs: now,
      seenAtMs: now,
      endsAtMs: now + sessionLengths.longestMs,
      address: request.ip,
      agent: (request.headers['user-agent'] ?? '').slice(0, 300),
    };
    await journal.sessions.add(session, before === undefined ? undefined : digestOf(before));
    setCookie(reply, 'session', secret, sessionLengths.longestMs / 1000);
    setCookie(reply, 'device', deviceCookie(await this.deviceKey(), person.id, person.passwordHash, newId()));
    this.changed();
  }

  /** Ends the session of this request; its browser stays a known one. */
  async leave(request: FastifyRequest, reply: FastifyReply): Promise<void> {
    const secret = readCookie(request, 'session');
    if (secret === undefined) return;
    await this.#parts.journal.sessions.end({ digest: digestOf(secret) });
    setCookie(reply, 'session', undefined);
    this.changed();
  }

  /** @returns How many ended. */
  async end(which: Parameters<Journal['sessions']['end']>[0]): Promise<number> {
    const ended = await this.#parts.journal.sessions.end(which);
    this.changed();
    return ended;
  }

  /** Sessions or people changed: forgets what is remembered, and has everybody who waits look again. */
  changed(): void {
    this.#remembered.clear();
    for (const look of this.#waiting) look();
  }

  /** @param look Called whenever a session may have ended. @returns how to stop. */
  whenChanged(look: () => void): () => void {
    this.#waiting.add(look);
    return () => this.#waiting.delete(look);
  }

  /** Made once, kept in the journal, so that every process of the server knows the same browsers. */
  async deviceKey(): Promise<string> {
    const { settings } = this.#parts.journal;
    this.#deviceKey ??= await settings.get(deviceKeySetting);
    if (this.#deviceKey === undefined) {
      await settings.set(deviceKeySetting, newSecret());
      this.#deviceKey = await settings.get(deviceKeySetting);
    }
    return this.#deviceKey ?? '';
  }
}
