/** What people filled in for services that bring messages. Its secrets go to those services and nowhere else. */
import { z } from 'zod';
import type { ServiceView } from '../../shared/contracts/notifications.ts';
import {
  isServiceChannel,
  type ServiceAsk,
  type ServiceChannel,
  type ServiceValues,
  serviceKey,
  serviceKeys,
  serviceOf,
} from '../../shared/notification-services/services.ts';
import type { Journal } from '../../shared/store/journal.ts';
import { UnreadableRowError } from '../../shared/store/unreadable.ts';

const keptSchema = z.object({ on: z.boolean(), values: z.record(z.string(), z.string()) });

export interface KeptService {
  readonly personId: string;
  readonly channel: ServiceChannel;
  readonly on: boolean;
  readonly values: ServiceValues;
}

export class ServiceSettings {
  readonly #settings: Journal['settings'];

  constructor({ settings }: Pick<Journal, 'settings'>) {
    this.#settings = settings;
  }

  async list(): Promise<KeptService[]> {
    const rows = await this.#settings.readUnder(serviceKeys, keptSchema);
    return rows.flatMap(({ key, value }) => {
      const [personId = '', channel = ''] = key.slice(serviceKeys.length).split('/');
      return isServiceChannel(channel) ? [{ personId, channel, ...value }] : [];
    });
  }

  /** What is filled in; undefined when nothing is. */
  async values(personId: string, channel: ServiceChannel): Promise<ServiceValues | undefined> {
    return (await this.#kept(personId, channel))?.values;
  }

  async views(personId: string): Promise<ServiceView[]> {
    return (await this.list()).filter((one) => one.personId === personId).map(viewOf);
  }

  /** @returns Fields that are wanting; nothing is kept then. */
  async set(personId: string, { channel, on, values }: ServiceAsk): Promise<readonly string[]> {
    const before = (await this.#kept(personId, channel))?.values ?? {};
    const merged: Record<string, string> = {};
    const missing: string[] = [];
    for (const [key, { isSecret, isOptional }] of Object.entries(serviceOf(channel).fields)) {
      const value = values[key] ?? (isSecret ? before[key] : undefined) ?? '';
      if (value !== '') merged[key] = value;
      else if (!isOptional) missing.push(key);
    }
    if (missing.length === 0) await this.#settings.write(serviceKey(personId, channel), { on, values: merged });
    return missing;
  }

  async remove(personId: string, channel: ServiceChannel): Promise<boolean> {
    const key = serviceKey(personId, channel);
    if ((await this.#settings.get(key)) === undefined) return false;
    await this.#settings.remove(key);
    return true;
  }

  async #kept(personId: string, channel: ServiceChannel) {
    try {
      return await this.#settings.read(serviceKey(personId, channel), keptSchema);
    } catch (error) {
      if (error instanceof UnreadableRowError) return undefined; // noted; filled in again it is whole again
      throw error;
    }
  }
}

function viewOf({ channel, on, values }: KeptService): ServiceView {
  const isSecret = (key: string) => serviceOf(channel).fields[key]?.isSecret === true;
  const keys = Object.keys(values);
  return {
    channel,
    on,
    values: Object.fromEntries(Object.entries(values).filter(([key]) => !isSecret(key))),
    secrets: keys.filter(isSecret),
  };
}
