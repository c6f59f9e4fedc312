/**
 * server/people/audit-trail.ts: who changed what, when and from where.
 *
 * Takes:  what was done, by whom, and what it was before and after.
 * Gives:  a row that is only ever added.
 * Never:  keeps a secret: values under names that tell of one are left out, whatever route they came by.
 */
import { randomBytes } from 'node:crypto';
import type { FastifyRequest } from 'fastify';
import type { Clock } from '../../shared/clock.ts';
import type { Person } from '../../shared/person.ts';
import type { Journal } from '../../shared/store/journal.ts';

export interface Deed {
  readonly what: string;
  readonly subject?: string | undefined;
  readonly before?: unknown;
  readonly after?: unknown;
  /** When it is not the one who asks, e.g. somebody just signed in. */
  readonly person?: Pick<Person, 'id' | 'name'>;
}

export class AuditTrail {
  readonly #journal: Journal;
  readonly #clock: Clock;
  #count = 0;

  constructor(journal: Journal, clock: Clock) {
    this.#journal = journal;
    this.#clock = clock;
  }

  async add(request: FastifyRequest, { what, subject, before, after, person }: Deed): Promise<void> {
    const who = person ?? request.person;
    const isAccount = person !== undefined || request.person?.via === 'session' || request.person?.via === 'token';
    await this.#journal.audit.add({
      id: this.#nextId(),
      atMs: this.#clock.nowMs(),
      personId: isAccount ? (who?.id ?? null) : null,
      personName: who?.name ?? 'somebody unknown',
      via: request.person?.via ?? (person ? 'session' : 'nobody'),
      what,
      subject: subject?.slice(0, 200) ?? null,
      address: request.ip,
      before: kept(before),
      after: kept(after),
    });
  }

  /** Sorts by the machine's time, and within a millisecond in the order of this process. */
  #nextId(): string {
    this.#count = (this.#count + 1) % 36 ** 4;
    const time = Date.now().toString(36).padStart(9, '0');
    return `${time}${this.#count.toString(36).padStart(4, '0')}${randomBytes(4).toString('hex')}`;
  }
}

const tellsOfSecret = /passw|secret|token|digest|credential|^(auth|authorization|p256dh|key|endpoint|cookie)$/i;
const mostLetters = 300;
const mostItems = 20;
const mostKept = 6_000;

function kept(value: unknown): string | null {
  if (value === undefined || value === null) return null;
  const text = JSON.stringify(withoutSecrets(value));
  return text.length <= mostKept ? text : JSON.stringify({ leftOut: `${text.length} characters` });
}

/** The same, readable and short: secrets left out, long texts cut, long lists counted. */
export function withoutSecrets(value: unknown): unknown {
  if (typeof value === 'string') {
    const bare = value.replace(/:\/\/[^/?#\s]*@/g, '://…@');
    return bare.length <= mostLetters ? bare : `${bare.slice(0, mostLetters)}… (${bare.length} characters)`;
  }
  if (Array.isArray(value)) {
    const shown = value.slice(0, mostItems).map(withoutSecrets);
    return value.length > mostItems ? [...shown, `… ${value.length - mostItems} more`] : shown;
  }
  if (value instanceof Uint8Array) return `${value.length} bytes`;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, one]) => [name, tellsOfSecret.test(name) ? '(left out)' : withoutSecrets(one)]),
  );
}
