/** The few things about delivery that are set for the whole server. */
import { randomBytes } from 'node:crypto';
import { z } from 'zod';
import type { Journal } from '../../shared/store/journal.ts';
import { UnreadableRowError } from '../../shared/store/unreadable.ts';
import { secretPrefix } from './channels/webhook.ts';

export const allowedKey = 'allowed-addresses';
const heartbeatKey = 'heartbeat-url';
const secretKey = (personId: string) => `webhook-secret/${personId}`;
const listSchema = z.array(z.string());

export class DeliverySettings {
  readonly #settings: Journal['settings'];

  constructor({ settings }: Pick<Journal, 'settings'>) {
    this.#settings = settings;
  }

  /** Inner addresses that an owner allowed, as "host:port". */
  async allowed(): Promise<readonly string[]> {
    try {
      return (await this.#settings.read(allowedKey, listSchema)) ?? [];
    } catch (error) {
      if (error instanceof UnreadableRowError) return []; // noted; what lies outside is reached all the same
      throw error;
    }
  }

  async setAllowed(addresses: readonly string[]): Promise<void> {
    await this.#settings.write(allowedKey, addresses);
  }

  async heartbeatUrl(): Promise<string | undefined> {
    return (await this.#settings.get(heartbeatKey)) || undefined;
  }

  async setHeartbeatUrl(url: string | null): Promise<void> {
    await this.#settings.set(heartbeatKey, url ?? '');
  }

  /** Made when it is first needed. */
  async webhookSecret(personId: string): Promise<string> {
    return (await this.#settings.get(secretKey(personId))) ?? this.renewWebhookSecret(personId);
  }

  async renewWebhookSecret(personId: string): Promise<string> {
    const secret = `${secretPrefix}${randomBytes(24).toString('base64')}`;
    await this.#settings.set(secretKey(personId), secret);
    return secret;
  }
}
