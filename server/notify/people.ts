/** Everybody who can be notified, with their preferences and where each channel finds them. */
import type { Recipient } from '../../core/notify/who.ts';
import { mailAddressPattern } from '../../shared/mail-address.ts';
import { fallback } from '../../shared/messages/language.ts';
import { isFilledIn, serverOfService } from '../../shared/notification-services/services.ts';
import { type NotificationChannel, type Preferences, preferencesSchema } from '../../shared/notifications.ts';
import { isAllowed, type Role } from '../../shared/person.ts';
import type { MailAddress, NotificationsStore, PushDevice } from '../../shared/store/notifications-store.ts';
import type { MessageReader } from './channels/render-content.ts';
import { type MailGoes, mailGoes } from './mail-standing.ts';
import type { KeptService, ServiceSettings } from './service-settings.ts';

export interface KnownPerson {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  /** That they chose (BCP 47). */
  readonly language: string | null;
}

/** Who is notified while nobody has been set up, or nobody of them can be reached yet. */
export const serverPerson: KnownPerson = { id: 'server', name: 'the server', role: 'owner', language: null };

export interface ChannelAddress {
  readonly channel: NotificationChannel;
  readonly address: string;
  readonly label: string;
}

export interface Listener extends Recipient {
  readonly name: string;
  readonly channels: readonly ChannelAddress[];
  /** Set up, but switched off: asked when the others fail. */
  readonly spareChannels: readonly ChannelAddress[];
}

export interface PeopleParts {
  readonly notifications: NotificationsStore;
  readonly services: Pick<ServiceSettings, 'list'>;
  readonly known: () => Promise<readonly KnownPerson[]>;
  /** Whether there is a mail server. */
  readonly canMail: boolean;
  /** Notified while nobody else can be. */
  readonly mailTo: string | undefined;
}

export class Recipients {
  readonly #parts: PeopleParts;

  constructor(parts: PeopleParts) {
    this.#parts = parts;
  }

  async known(): Promise<readonly KnownPerson[]> {
    const known = await this.#parts.known();
    return known.length === 0 ? [serverPerson] : known;
  }

  /** Somebody who was removed meanwhile is not notified any more. */
  async isKnown(personId: string): Promise<boolean> {
    return personId === serverPerson.id || (await this.known()).some(({ id }) => id === personId);
  }

  /** Whether they may acknowledge by what they are sent: asked again when they do, as they may have been demoted or removed. */
  async mayAcknowledge(personId: string): Promise<boolean> {
    if (personId === serverPerson.id) return true;
    return isAllowed((await this.known()).find(({ id }) => id === personId)?.role, 'keeper');
  }

  async preferencesOf(personId: string): Promise<Preferences> {
    const kept = (await this.#parts.notifications.preferences.list()).find((one) => one.personId === personId);
    return this.#read(personId, kept?.preferences);
  }

  /** How messages are worded for them. */
  async readerOf(personId: string): Promise<MessageReader> {
    const [{ timeZone, unit, hour12 }, known] = await Promise.all([this.preferencesOf(personId), this.known()]);
    const language = known.find(({ id }) => id === personId)?.language ?? fallback;
    return { timeZone, unit, language, hour12 };
  }

  async mailOf(personId: string): Promise<MailGoes> {
    const { email } = await this.preferencesOf(personId);
    return this.#mailGoes(personId, email.address, await this.#parts.notifications.mailAddresses.list(personId));
  }

  async listeners(): Promise<Listener[]> {
    const [known, preferences, devices, addresses, services] = await Promise.all([
      this.known(),
      this.#parts.notifications.preferences.list(),
      this.#parts.notifications.devices.list(),
      this.#parts.notifications.mailAddresses.list(),
      this.#parts.services.list(),
    ]);
    const preferencesOf = new Map(preferences.map((one) => [one.personId, one.preferences]));
    const listenerOf = ({ id, name, role }: KnownPerson): Listener => {
      const own = this.#read(id, preferencesOf.get(id));
      const all = addressesOf(
        own,
        devices.filter(({ personId }) => personId === id),
        this.#parts.canMail ? this.#mailGoes(id, own.email.address, addresses).to : undefined,
        services.filter(({ personId }) => personId === id),
      );
      return {
        personId: id,
        name,
        isOwner: role === 'owner',
        preferences: own,
        channels: all.filter(({ on }) => on).map(({ channel, address, label }) => ({ channel, address, label })),
        spareChannels: all.filter(({ on }) => !on).map(({ channel, address, label }) => ({ channel, address, label })),
      };
    };
    const listeners = known.map(listenerOf);
    if (listeners.some(({ channels }) => channels.length > 0)) return listeners;
    // Between the first owner and their first channel nobody would hear of anything: the server’s own address still does.
    const installation = listenerOf(serverPerson);
    return installation.channels.length > 0 && !known.includes(serverPerson) ? [...listeners, installation] : listeners;
  }

  #mailGoes(personId: string, preferred: string, addresses: readonly MailAddress[]): MailGoes {
    const own = addresses.filter((one) => one.personId === personId);
    return mailGoes(preferred, own, personId === serverPerson.id ? this.#parts.mailTo : undefined);
  }

  #read(personId: string, kept: Preferences | undefined): Preferences {
    const preferences = kept ?? preferencesSchema.parse({});
    const { mailTo } = this.#parts;
    if (personId !== serverPerson.id || mailTo === undefined || preferences.email.address !== '') return preferences;
    return { ...preferences, email: { on: true, address: mailTo } };
  }
}

function addressesOf(
  preferences: Preferences,
  devices: readonly PushDevice[],
  mailTo: string | undefined,
  services: readonly KeptService[],
): (ChannelAddress & { readonly on: boolean })[] {
  const { push, email, webhook } = preferences;
  return [
    ...devices.map(({ id, label }) => ({ channel: 'push' as const, address: id, label, on: push.on })),
    ...(mailTo !== undefined && mailAddressPattern.test(mailTo)
      ? [{ channel: 'email' as const, address: mailTo, label: mailTo, on: email.on }]
      : []),
    ...(URL.canParse(webhook.url)
      ? [{ channel: 'webhook' as const, address: webhook.url, label: new URL(webhook.url).host, on: webhook.on }]
      : []),
    ...services.filter(({ channel, values }) => isFilledIn(channel, values)).map(addressOfService),
  ];
}

/** Its host alone: whatever opens it is a secret, and messages are looked at by others. */
function addressOfService({ channel, values, on }: KeptService) {
  const { host } = new URL(serverOfService(channel, values));
  return { channel, address: host, label: host, on };
}
