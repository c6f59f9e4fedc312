/**
 * The key pair by which push services know this server (RFC 8292). Every device is subscribed with its public half, so it
 * never changes while it can be read; made anew, it ends every subscription of before.
 */
import { createECDH } from 'node:crypto';
import type { FastifyBaseLogger } from 'fastify';
import { z } from 'zod';
import type { SystemFacts } from '../../../core/notify/other-contents.ts';
import type { Clock } from '../../../shared/clock.ts';
import { message, paragraph } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { rankOf } from '../../../shared/notifications.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { UnreadableRowError } from '../../../shared/store/unreadable.ts';

/** Large, and needed by few: it comes with the first device. */
export const webPush = async () => (await import('web-push')).default;

export const keysSetting = 'push-keys';

export const pairSchema = z
  .object({ publicKey: z.string(), privateKey: z.string() })
  .refine(isPair, { path: ['publicKey'] });
export type PushKeyPair = z.infer<typeof pairSchema>;

export interface PushKeysParts {
  readonly journal: Pick<Journal, 'settings' | 'notifications'>;
  readonly clock: Clock;
  readonly log: Pick<FastifyBaseLogger, 'error'>;
  readonly newId: () => string;
}

export class PushKeys {
  readonly #parts: PushKeysParts;
  /** One at a time, so that two who ask at once do not make two pairs. */
  #asking: Promise<unknown> = Promise.resolve();

  constructor(parts: PushKeysParts) {
    this.#parts = parts;
  }

  /** Made when it is first needed, and made anew when what is kept is damaged. */
  pair(): Promise<PushKeyPair> {
    return this.#inTurn(async () => (await this.#kept()) ?? this.#make());
  }

  /** Finds out at the start whether they are damaged, before a warning has to be sent. */
  async check(): Promise<void> {
    await this.#inTurn(() => this.#kept());
  }

  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const done = this.#asking.then(work);
    this.#asking = done.catch(() => undefined);
    return done;
  }

  /** @returns undefined while there are none. */
  async #kept(): Promise<PushKeyPair | undefined> {
    try {
      return await this.#parts.journal.settings.read(keysSetting, pairSchema);
    } catch (error) {
      if (!(error instanceof UnreadableRowError)) throw error;
      return this.#renew();
    }
  }

  async #renew(): Promise<PushKeyPair> {
    const { settings, notifications } = this.#parts.journal;
    await settings.set(`set-aside/setting/${keysSetting}`, String(await settings.get(keysSetting)));
    // Before the new pair stands: were it the other way round, devices could be left that no message reaches.
    const ended = await notifications.devices.removeAll();
    const made = await this.#make();
    await this.#notifyOwners(ended);
    return made;
  }

  async #make(): Promise<PushKeyPair> {
    const { settings } = this.#parts.journal;
    const made = (await webPush()).generateVAPIDKeys();
    await settings.write(keysSetting, made);
    return (await settings.read(keysSetting, pairSchema)) ?? made; // another process may have been first
  }

  async #notifyOwners(ended: number): Promise<void> {
    const { journal, clock, log, newId } = this.#parts;
    const nowMs = clock.nowMs();
    const facts: SystemFacts = {
      said: message('notice.system.push-keys', { endedCount: ended }),
      todo: ended === 0 ? paragraph() : message('notice.system.push-keys.todo'),
      short: message('notice.system.push-keys.short'),
    };
    log.error({ ended }, plainEnglish(paragraph(facts.said, facts.todo)).trim());
    const ids = { siteId: null, pileId: null, alarmId: null, personId: null };
    const when = { atMs: nowMs, dueMs: nowMs };
    const rank = rankOf('warning');
    await journal.notifications.notices.add([
      { id: newId(), key: `push-keys/${nowMs}`, about: 'server', answer: 'first-raise', rank, ...ids, ...when, facts },
    ]);
  }
}

/** P-256, as RFC 8292 section 3.2 has it. */
function isPair({ publicKey, privateKey }: { publicKey: string; privateKey: string }): boolean {
  try {
    const ecdh = createECDH('prime256v1');
    ecdh.setPrivateKey(Buffer.from(privateKey, 'base64url'));
    return ecdh.getPublicKey().equals(Buffer.from(publicKey, 'base64url'));
  } catch {
    return false;
  }
}
