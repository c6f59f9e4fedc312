/**
 * Who changed what, when and from where: rows that are only ever added. A change is never undone for want of its row; but
 * while one row is owed, no further change is let through.
 */

import { randomBytes } from 'node:crypto';
import type { FastifyBaseLogger, FastifyRequest } from 'fastify';
import type { Clock } from '../../../shared/clock.ts';
import { StoreError } from '../../../shared/errors.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import { type PartHealth, partHealth } from '../../../shared/part-health.ts';
import type { Person } from '../../../shared/person.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { AuditRecord } from '../../../shared/store/people-journal.ts';
import { auditData, leftOut } from './audit-text.ts';

export interface Mutation {
  readonly what: Message;
  readonly subject?: string | undefined;
  readonly before?: unknown;
  readonly after?: unknown;
  /** When it is not the one who asks, e.g. somebody just signed in. */
  readonly person?: Pick<Person, 'id' | 'name'>;
}

export type AuditHealth = PartHealth<'ok' | 'degraded'>;

/** Rows kept in memory until the journal takes them again; each is in the log too. */
const mostOwed = 1_000;

export class AuditTrail {
  readonly #journal: Pick<Journal, 'audit'>;
  readonly #clock: Clock;
  readonly #log: FastifyBaseLogger;
  readonly #owed: AuditRecord[] = [];
  #lost = 0;
  #settling: Promise<void> | undefined;
  #count = 0;

  constructor(journal: Pick<Journal, 'audit'>, clock: Clock, log: FastifyBaseLogger) {
    this.#journal = journal;
    this.#clock = clock;
    this.#log = log;
  }

  /** Never throws: the change itself is done, and to say that it failed would have it made twice. */
  async add(request: FastifyRequest, mutation: Mutation): Promise<void> {
    await this.#keep(this.#row(request, mutation));
  }

  /** The same of what came by another way than a request. */
  async addOf(who: Pick<AuditRecord, 'via'> & { readonly name: string }, { what, subject }: Mutation): Promise<void> {
    const shown = subject === undefined ? null : shownSubject(subject);
    const nobody = { personId: null, address: null, before: null, after: null };
    const { name: personName, via } = who;
    await this.#keep({
      id: this.#nextId(),
      atMs: this.#clock.nowMs(),
      personName,
      via,
      what,
      subject: shown,
      ...nobody,
    });
  }

  async #keep(row: AuditRecord): Promise<void> {
    try {
      await this.#write(row);
    } catch (error) {
      this.#log.error({ err: error, row }, 'a row of the audit trail cannot be written yet');
      if (this.#owed.length < mostOwed) this.#owed.push(row);
      else this.#lost += 1;
    }
  }

  /**
   * Before a change: writes what is owed.
   * @throws {StoreError} while it cannot be written; a second change would be one more without its row.
   */
  async settle(): Promise<void> {
    if (this.#owed.length === 0) return;
    // Two at once must not write a row twice.
    this.#settling ??= this.#writeOwed().finally(() => {
      this.#settling = undefined;
    });
    await this.#settling;
  }

  health(): AuditHealth {
    const missingCount = this.#owed.length + this.#lost;
    if (missingCount === 0) return partHealth('ok', message('health.audit.ok'));
    return partHealth('degraded', message('health.audit.owed', { missingCount, lostCount: this.#lost }));
  }

  async #writeOwed(): Promise<void> {
    for (let row = this.#owed[0]; row; row = this.#owed[0]) {
      try {
        await this.#write(row);
      } catch (error) {
        throw new StoreError('Cannot make a change while an earlier one is missing in the audit trail', {
          cause: error,
        });
      }
      this.#owed.shift();
    }
  }

  /** Whole if possible; else without what it was before and after, should that be what the journal cannot take. */
  async #write(row: AuditRecord): Promise<void> {
    try {
      await this.#journal.audit.add(row);
    } catch {
      await this.#journal.audit.add({ ...row, before: null, after: leftOut('unwritable') });
    }
  }

  #row(request: FastifyRequest, { what, subject, before, after, person }: Mutation): AuditRecord {
    const who = person ?? request.person;
    const isAccount = person !== undefined || request.person?.via === 'session' || request.person?.via === 'token';
    return {
      id: this.#nextId(),
      atMs: this.#clock.nowMs(),
      personId: isAccount ? (who?.id ?? null) : null,
      personName: who?.name ?? null,
      via: request.person?.via ?? (person ? 'session' : 'nobody'),
      what,
      subject: subject === undefined ? null : shownSubject(subject),
      address: request.ip,
      before: auditData(before),
      after: auditData(after),
    };
  }

  /** Sorts by the machine's time, and within a millisecond in the order of this process. */
  #nextId(): string {
    this.#count = (this.#count + 1) % 36 ** 4;
    const time = Date.now().toString(36).padStart(9, '0');
    return `${time}${this.#count.toString(36).padStart(4, '0')}${randomBytes(4).toString('hex')}`;
  }
}

/** PostgreSQL takes no NUL in a text, and nobody can read the others. */
const shownSubject = (subject: string) => subject.replace(/\p{C}/gu, ' ').slice(0, 200);
