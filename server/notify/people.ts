/**
 * server/notify/people.ts: everybody who can be told, with their wishes and where each way finds them.
 *
 * Takes:  who is known to the house, the journal's wishes and devices, what is set up.
 * Gives:  listeners; while nobody is known, or nobody known can be reached, there is "this house".
 */
import type { Hearer } from '../../core/notify/who.ts';
import { mailAddressPattern } from '../../shared/mail-address.ts';
import { type TellingWay, type Wishes, wishesSchema } from '../../shared/notifications.ts';
import type { Role } from '../../shared/person.ts';
import type { MailAddress, PushDevice, TellingStore } from '../../shared/store/notifications-store.ts';
import { type MailGoes, mailGoes } from './mail-standing.ts';

export interface KnownPerson {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
}

/** Who is told while nobody has been set up, or nobody of them can be reached yet. */
export const housePerson: KnownPerson = { id: 'house', name: 'this house', role: 'owner' };

export interface WayAddress {
  readonly way: TellingWay;
  readonly address: string;
  readonly label: string;
}

export interface Listener extends Hearer {
  readonly name: string;
  readonly ways: readonly WayAddress[];
  /** Set up, but switched off: asked when the others fail. */
  readonly spareWays: readonly WayAddress[];
}

export interface PeopleParts {
  readonly telling: TellingStore;
  readonly known: () => Promise<readonly KnownPerson[]>;
  /** Whether there is a mail server. */
  readonly canMail: boolean;
  /** Told while nobody else can be. */
  readonly mailTo: string | undefined;
}

export class TellingPeople {
  readonly #parts: PeopleParts;

  constructor(parts: PeopleParts) {
    this.#parts = parts;
  }

  async known(): Promise<readonly KnownPerson[]> {
    const known = await this.#parts.known();
    return known.length === 0 ? [housePerson] : known;
  }

  /** Somebody who was removed meanwhile is told nothing more. */
  async isKnown(personId: string): Promise<boolean> {
    return personId === housePerson.id || (await this.known()).some(({ id }) => id === personId);
  }

  async wishesOf(personId: string): Promise<Wishes> {
    const kept = (await this.#parts.telling.wishes.list()).find((one) => one.personId === personId);
    return this.#read(personId, kept?.wishes);
  }

  async mailOf(personId: string): Promise<MailGoes> {
    const { email } = await this.wishesOf(personId);
    return this.#mailGoes(personId, email.address, await this.#parts.telling.mailAddresses.list(personId));
  }

  async listeners(): Promise<Listener[]> {
    const [known, wishes, devices, addresses] = await Promise.all([
      this.known(),
      this.#parts.telling.wishes.list(),
      this.#parts.telling.devices.list(),
      this.#parts.telling.mailAddresses.list(),
    ]);
    const wishesOf = new Map(wishes.map((one) => [one.personId, one.wishes]));
    const listenerOf = ({ id, name, role }: KnownPerson): Listener => {
      const own = this.#read(id, wishesOf.get(id));
      const all = addressesOf(
        own,
        devices.filter(({ personId }) => personId === id),
        this.#parts.canMail ? this.#mailGoes(id, own.email.address, addresses).to : undefined,
      );
      return {
        personId: id,
        name,
        isOwner: role === 'owner',
        wishes: own,
        ways: all.filter(({ on }) => on).map(({ way, address, label }) => ({ way, address, label })),
        spareWays: all.filter(({ on }) => !on).map(({ way, address, label }) => ({ way, address, label })),
      };
    };
    const told = known.map(listenerOf);
    if (told.some(({ ways }) => ways.length > 0)) return told;
    // Between the first owner and their first way nobody would hear of anything: the house’s own address still does.
    const house = listenerOf(housePerson);
    return house.ways.length > 0 && !known.includes(housePerson) ? [...told, house] : told;
  }

  #mailGoes(personId: string, wished: string, addresses: readonly MailAddress[]): MailGoes {
    const own = addresses.filter((one) => one.personId === personId);
    return mailGoes(wished, own, personId === housePerson.id ? this.#parts.mailTo : undefined);
  }

  #read(personId: string, kept: Wishes | undefined): Wishes {
    const wishes = kept ?? wishesSchema.parse({});
    const { mailTo } = this.#parts;
    if (personId !== housePerson.id || mailTo === undefined || wishes.email.address !== '') return wishes;
    return { ...wishes, email: { on: true, address: mailTo } };
  }
}

function addressesOf(
  wishes: Wishes,
  devices: readonly PushDevice[],
  mailTo: string | undefined,
): (WayAddress & { readonly on: boolean })[] {
  const { push, email, webhook } = wishes;
  return [
    ...devices.map(({ id, label }) => ({ way: 'push' as const, address: id, label, on: push.on })),
    ...(mailTo !== undefined && mailAddressPattern.test(mailTo)
      ? [{ way: 'email' as const, address: mailTo, label: mailTo, on: email.on }]
      : []),
    ...(URL.canParse(webhook.url)
      ? [{ way: 'webhook' as const, address: webhook.url, label: new URL(webhook.url).host, on: webhook.on }]
      : []),
  ];
}
