/**
 * Tokens of programs. It never lets a token do more than the person who made it may do now, or than its scope says.
 */
import type { FastifyBaseLogger } from 'fastify';
import { type Person, roleWithin, type Scope } from '../../../shared/person.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PersonRecord, TokenRecord } from '../../../shared/store/people-journal.ts';
import { msPerMinute } from '../../../shared/units.ts';
import { Remembered } from './remembered.ts';
import { digestOf, newId, newSecret } from './secrets.ts';

/** So that people and programs that look for lost secrets know one when they see it. */
const prefix = 'branhearth_';

interface KnownToken {
  readonly token: TokenRecord;
  readonly person: PersonRecord;
}

export class ApiTokens {
  readonly #journal: Journal;
  readonly #log: FastifyBaseLogger;
  readonly #nowMs: () => number;
  readonly #remembered: Remembered<KnownToken>;

  constructor(journal: Journal, log: FastifyBaseLogger, nowMs: () => number) {
    this.#journal = journal;
    this.#log = log;
    this.#nowMs = nowMs;
    this.#remembered = new Remembered(nowMs);
  }

  /** With the id of the token, which what is made by it ends with. */
  async personOf(secret: string): Promise<{ person: Person; tokenId: string } | undefined> {
    if (!secret.startsWith(prefix)) return undefined;
    const digest = digestOf(secret);
    const known = await this.#remembered.get(digest, () => this.#journal.tokens.find(digest));
    if (!known) return undefined;
    const { token, person } = known;
    const now = this.#nowMs();
    if (token.endsAtMs !== null && token.endsAtMs <= now) return undefined;
    if (token.usedAtMs === null || token.usedAtMs < now - msPerMinute) {
      this.#remembered.set(digest, { ...known, token: { ...token, usedAtMs: now } });
      this.#journal.tokens
        .used(token.id, now)
        .catch((error) => this.#log.error({ err: error }, 'use of a token not kept'));
    }
    const role = roleWithin(person.role, token.scope);
    return { person: { id: person.id, name: person.name, role, via: 'token' }, tokenId: token.id };
  }

  /** @returns The token with its secret, which is shown this once. */
  async make(personId: string, name: string, scope: Scope, endsAtMs: number | null) {
    const secret = `${prefix}${newSecret()}`;
    const token: TokenRecord = {
      id: newId(),
      digest: digestOf(secret),
      personId,
      name,
      scope,
      madeAtMs: this.#nowMs(),
      usedAtMs: null,
      endsAtMs,
    };
    await this.#journal.tokens.add(token);
    return { token, secret };
  }

  /** @param personId Only when it is theirs. */
  async revoke(id: string, personId?: string): Promise<boolean> {
    const isGone = await this.#journal.tokens.remove(id, personId);
    this.#remembered.clear();
    return isGone;
  }

  /** @returns How many ended. */
  async revokeAll(personId: string): Promise<number> {
    const ended = await this.#journal.tokens.removeAll(personId);
    this.#remembered.clear();
    return ended;
  }

  changed(): void {
    this.#remembered.clear();
  }
}
