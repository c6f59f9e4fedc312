/**
 * A person confirms that an e-mail address is theirs, by a code that is mailed there.
 */

import type { Clock } from '../../shared/clock.ts';
import type { MailAnswer } from '../../shared/contracts/notifications.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { NoticeRecord } from '../../shared/store/notifications-store.ts';
import { Refusal } from '../refusal.ts';
import { isSame } from '../services/people/secrets.ts';
import { codeLastsMs, mailCode, mostCodeTries } from './mail-code.ts';
import type { Recipients } from './people.ts';
import { countCode } from './sending-bounds.ts';

export interface ConfirmationParts {
  readonly journal: Pick<Journal, 'settings' | 'notifications' | 'attempts'>;
  readonly people: Recipients;
  readonly clock: Clock;
  /** The machine's clock, by which codes run out. */
  readonly machineNowMs: () => number;
  readonly send: (notice: NoticeRecord) => Promise<void>;
  readonly newId: () => string;
}

export class MailConfirmation {
  readonly #parts: ConfirmationParts;

  constructor(parts: ConfirmationParts) {
    this.#parts = parts;
  }

  async view(personId: string): Promise<MailAnswer> {
    const { standing, to } = await this.#parts.people.mailOf(personId);
    const asked = await this.#asked(personId);
    return {
      standing,
      goesTo: to ?? null,
      sentAt: asked === undefined ? null : toInstant(asked.askedAtMs),
      codeEndsAt: asked === undefined ? null : toInstant(asked.askedAtMs + codeLastsMs),
    };
  }

  /** Sends a new code to the address of the person's preferences; those before count no more. @returns The notice to follow. */
  async sendCode(personId: string): Promise<string> {
    const { journal, clock, machineNowMs, send, newId } = this.#parts;
    const address = await this.#unconfirmed(personId);
    const nowMs = machineNowMs();
    await countCode(journal.attempts, personId, address, nowMs);
    await journal.notifications.mailAddresses.ask(personId, address, nowMs);
    const id = newId();
    const atMs = clock.nowMs();
    await send({
      id,
      key: `confirmation/${id}`,
      about: 'person',
      answer: 'confirmation',
      rank: 1,
      siteId: null,
      pileId: null,
      alarmId: null,
      personId,
      atMs,
      dueMs: atMs,
      facts: { codeFor: address, askedAtMs: nowMs },
    });
    return id;
  }

  /** @returns The address that is confirmed now. @throws {Refusal} 409 or 422 with what to do. */
  async confirm(personId: string, code: string): Promise<string> {
    const { journal, machineNowMs } = this.#parts;
    const address = await this.#unconfirmed(personId);
    const row = await journal.notifications.mailAddresses.tried(personId, address);
    const wrong = (why: Message) => new Refusal(422, why, { pointer: '/code' });
    if (row?.askedAtMs == null) throw wrong(message('problem.mail.no-code'));
    if (row.tries > mostCodeTries) throw wrong(message('problem.mail.too-many-tries'));
    if (machineNowMs() - row.askedAtMs >= codeLastsMs) throw wrong(message('problem.mail.code-ran-out'));
    const right = await mailCode(journal.settings, { personId, address, askedAtMs: row.askedAtMs });
    if (!isSame(code.replace(/\D/g, ''), right)) {
      const left = mostCodeTries - row.tries;
      throw wrong(left > 0 ? message('problem.mail.wrong-code') : message('problem.mail.last-try'));
    }
    await journal.notifications.mailAddresses.confirm(personId, address, machineNowMs());
    return address;
  }

  async #unconfirmed(personId: string): Promise<string> {
    const { people } = this.#parts;
    const { email } = await people.preferencesOf(personId);
    const { standing } = await people.mailOf(personId);
    if (standing === 'none') throw new Refusal(409, message('problem.mail.no-address'));
    if (standing === 'confirmed' || standing === 'set-by-server')
      throw new Refusal(409, message('problem.mail.confirmed-already'));
    return email.address;
  }

  async #asked(personId: string): Promise<{ askedAtMs: number } | undefined> {
    const { people, journal } = this.#parts;
    const { email } = await people.preferencesOf(personId);
    const row = (await journal.notifications.mailAddresses.list(personId)).find(
      ({ address }) => address === email.address.toLowerCase(),
    );
    return row?.askedAtMs == null ? undefined : { askedAtMs: row.askedAtMs };
  }
}
