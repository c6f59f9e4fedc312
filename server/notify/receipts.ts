/**
 * Urgent messages by Pushover ring until somebody acknowledges: whoever does so there has done it here, and what is
 * acknowledged or over here rings there no longer. Receipts are kept in the journal, so that a restart forgets none.
 */
import type { FastifyBaseLogger } from 'fastify';
import { z } from 'zod';
import { pushover } from '../../shared/notification-services/pushover.ts';
import { type AcknowledgeByLinkParts, answerLinkOf } from './acknowledge-by-link.ts';
import type { Job } from './channels/channel.ts';
import { type GuardedAnswer, type GuardedOptions, guardedRequest } from './channels/guarded-request.ts';
import { jsonAsk } from './channels/services/sender.ts';
import { digestOf } from './notification-links.ts';
import type { ServiceSettings } from './service-settings.ts';

/** "No faster than once every 5 seconds" (pushover.net/api/receipts). */
const askEveryMs = 10_000;
/** A receipt is asked after this long as long as its message rings; afterwards nobody can acknowledge there. */
const livesMs = 3_600_000;
const timeoutMs = 10_000;
const receiptKeys = 'pushover-receipt/';
const receiptSchema = z.object({
  receipt: z.string(),
  personId: z.string(),
  /** Of the link by which the same is acknowledged. */
  digest: z.string(),
  sentAtMs: z.number(),
  askedAtMs: z.number(),
});
type Receipt = z.infer<typeof receiptSchema>;
const statusSchema = z.object({ acknowledged: z.number(), expired: z.number() });

export interface ReceiptsParts extends AcknowledgeByLinkParts {
  readonly services: Pick<ServiceSettings, 'values'>;
  readonly log: FastifyBaseLogger;
  readonly allowed: () => Promise<readonly string[]>;
  readonly guard?: Pick<GuardedOptions, 'trust' | 'lookup'>;
  readonly home?: string | undefined;
}

export class Receipts {
  readonly #parts: ReceiptsParts;
  #timer: NodeJS.Timeout | undefined;
  #running: Promise<void> | undefined;

  constructor(parts: ReceiptsParts) {
    this.#parts = parts;
  }

  start(): void {
    this.#timer = setInterval(() => this.check(), askEveryMs);
    this.#timer.unref();
  }

  async close(): Promise<void> {
    clearInterval(this.#timer);
    await this.#running;
  }

  async keep(receipt: string, { message, ack }: Job): Promise<void> {
    if (ack === undefined) return;
    const kept: Receipt = {
      receipt,
      personId: message.personId,
      digest: digestOf(ack.secret),
      sentAtMs: Date.now(),
      askedAtMs: 0,
    };
    await this.#parts.journal.settings.write(`${receiptKeys}${message.id}`, kept);
  }

  /** One round over all that ring. */
  check(): Promise<void> {
    this.#running ??= this.#round().finally(() => {
      this.#running = undefined;
    });
    return this.#running;
  }

  async #round(): Promise<void> {
    const { journal, log } = this.#parts;
    try {
      for (const { key, value } of await journal.settings.readUnder(receiptKeys, receiptSchema)) {
        const isDone = await this.#isDone(key, value).catch((error) => {
          log.warn({ err: error }, 'a receipt could not be asked for; it is asked for again');
          return false;
        });
        if (isDone) await journal.settings.remove(key);
      }
    } catch (error) {
      log.error({ err: error }, 'receipts cannot be read');
    }
  }

  /** @returns Whether it need not be asked for again. */
  async #isDone(key: string, one: Receipt): Promise<boolean> {
    const nowMs = Date.now();
    if (nowMs - one.sentAtMs > livesMs) return true;
    // Another process asked just now.
    if (nowMs - one.askedAtMs < askEveryMs / 2) return false;
    await this.#parts.journal.settings.write(key, { ...one, askedAtMs: nowMs });
    const token = (await this.#parts.services.values(one.personId, 'pushover'))?.token;
    if (token === undefined) return true;
    const { state } = await answerLinkOf(this.#parts, one.digest, false);
    if (state !== 'ready') return isOver(await this.#cancel(one.receipt, token));
    const answer = await this.#ask(`/1/receipts/${one.receipt}.json?token=${token}`);
    if (answer.status !== 200) return isOver(answer);
    const status = statusSchema.parse(JSON.parse(answer.body));
    if (status.acknowledged === 1) await answerLinkOf(this.#parts, one.digest, true);
    return status.acknowledged === 1 || status.expired === 1;
  }

  #cancel(receipt: string, token: string): Promise<GuardedAnswer> {
    return this.#ask(`/1/receipts/${receipt}/cancel.json`, { token });
  }

  async #ask(path: string, body?: object): Promise<GuardedAnswer> {
    const { guard = {}, allowed, home = pushover.home } = this.#parts;
    const url = `${home}${path}`;
    const ask = body === undefined ? { method: 'GET' as const, url, headers: {} } : jsonAsk('POST', url, body);
    return guardedRequest(ask, { ...guard, allowed: await allowed(), timeoutMs });
  }
}

/** A 5xx or 429 is asked again; any other answer will not change. */
const isOver = ({ status }: GuardedAnswer) => status < 500 && status !== 429;
