/**
 * A name and a password become a session; and a password is changed. It never says whether the name or the password was
 * wrong, or takes another way for a name that nobody has.
 */
import type { FastifyBaseLogger, FastifyReply, FastifyRequest } from 'fastify';
import { type Message, message } from '../../../shared/messages/message.ts';
import { passwordProblem } from '../../../shared/password-rule.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PersonRecord } from '../../../shared/store/people-journal.ts';
import { Refusal } from '../../refusal.ts';
import type { AuditTrail } from './audit-trail.ts';
import { readCookie, readDevice } from './cookies.ts';
import { nameKeyOf } from './names.ts';
import { hashPassword, isHash, isPassword, TooBusyError, wantsNewHash } from './passwords.ts';
import type { Sessions } from './sessions.ts';
import { countAttempt, slowDown } from './slow-down.ts';

export interface SignInParts {
  readonly journal: Journal;
  readonly sessions: Sessions;
  readonly trail: AuditTrail;
  readonly log: FastifyBaseLogger;
  readonly nowMs: () => number;
}

/** Rows about refused attempts in one hour; whoever floods us shall not fill the disk. */
const mostRefusedRows = 200;

export class SignIn {
  readonly #parts: SignInParts;
  #refusedRows = { sinceMs: 0, count: 0 };

  constructor(parts: SignInParts) {
    this.#parts = parts;
  }

  async signIn(request: FastifyRequest, reply: FastifyReply, name: string, password: string): Promise<PersonRecord> {
    const { sessions, trail } = this.#parts;
    const person = await this.#checked(request, nameKeyOf(name), password, message('problem.name-or-password'));
    await sessions.start(request, reply, person);
    await trail.add(request, { what: message('audit.did.signed-in'), person });
    return person;
  }

  /** That it is really the person who sits there: for what outlasts the session. @throws {Refusal} 422 at the pointer, or 429. */
  async confirm(request: FastifyRequest, person: PersonRecord, password: string, pointer: string): Promise<void> {
    // Counted as an attempt to sign in: a session left open must not serve to find out the password.
    await this.#checked(request, person.nameKey, password, message('problem.password-wrong'), pointer);
  }

  /** Everything else that the person holds ends; this session goes on under a new id. */
  async changePassword(
    request: FastifyRequest,
    reply: FastifyReply,
    person: PersonRecord,
    ask: { current: string; next: string },
  ): Promise<void> {
    const { journal, sessions } = this.#parts;
    await this.#checked(request, person.nameKey, ask.current, message('problem.present-password-wrong'), '/current');
    refuseWeak(ask.next, person.name, '/next');
    const passwordHash = await inTime(hashPassword(ask.next));
    await journal.people.setPassword(person.id, passwordHash, request.session?.digest);
    await sessions.start(request, reply, { ...person, passwordHash });
  }

  async #checked(
    request: FastifyRequest,
    nameKey: string,
    password: string,
    refusal: Message,
    pointer?: string,
  ): Promise<PersonRecord> {
    const { journal, sessions, nowMs, log } = this.#parts;
    const person = await journal.people.byNameKey(nameKey);
    if (person && !isHash(person.passwordHash)) {
      log.error(
        { personId: person.id },
        'what is kept of a password is damaged: its person signs in again with a link for a new one, which an owner makes',
      );
    }
    const device = readDevice(await sessions.deviceKey(), person, readCookie(request, 'device'));
    const { counts, forget, giveBack } = countAttempt({ nameKey, address: request.ip, device });
    const waitMs = await journal.attempts.take(counts, nowMs(), slowDown.quietMs);
    if (waitMs > 0) throw tooMany(waitMs);
    if (!(await inTime(isPassword(password, person?.passwordHash))) || !person) {
      await this.#noteRefused(request, person);
      throw new Refusal(pointer === undefined ? 401 : 422, refusal, pointer === undefined ? {} : { pointer });
    }
    await journal.attempts.succeeded(forget, giveBack);
    if (!wantsNewHash(person.passwordHash)) return person;
    const passwordHash = await inTime(hashPassword(password));
    await journal.people.renewHash(person.id, passwordHash);
    return { ...person, passwordHash };
  }

  async #noteRefused(request: FastifyRequest, person: PersonRecord | undefined): Promise<void> {
    const { trail, nowMs } = this.#parts;
    const now = nowMs();
    if (Math.abs(now - this.#refusedRows.sinceMs) > slowDown.quietMs) this.#refusedRows = { sinceMs: now, count: 0 };
    this.#refusedRows.count += 1;
    if (this.#refusedRows.count > mostRefusedRows) return;
    const isLast = this.#refusedRows.count === mostRefusedRows;
    // The name as typed is not kept: people type passwords there.
    await trail.add(request, {
      what: message('audit.refused-at-sign-in', { isKnown: person !== undefined, isLast }),
      subject: person?.name,
    });
  }
}

/** @throws {Refusal} 422 with what is wrong. */
export function refuseWeak(password: string, name: string, pointer: string): void {
  const problem = passwordProblem(password, [name]);
  if (problem !== undefined) throw new Refusal(422, problem, { pointer });
}

export async function inTime<T>(work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (!(error instanceof TooBusyError)) throw error;
    throw new Refusal(503, message('problem.signing-in-busy'), { retryAfterS: 5 });
  }
}

function tooMany(waitMs: number): Refusal {
  const waitS = Math.ceil(waitMs / 1000);
  const waitPart =
    waitS < 90
      ? message('problem.wait-seconds', { secondsCount: waitS })
      : message('problem.wait-minutes', { minutesCount: Math.ceil(waitS / 60) });
  return new Refusal(429, message('problem.tried-too-often', { waitPart }), { retryAfterS: waitS });
}
