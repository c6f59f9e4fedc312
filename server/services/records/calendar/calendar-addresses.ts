/**
 * The secret of each person's calendar address, and whether one is still good. It never takes the secret of somebody
 * who was removed, or tells by its answering time how much of one was right.
 */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import type { Person } from '../../../../shared/person.ts';
import type { Journal } from '../../../../shared/store/journal.ts';
import type { PersonRecord } from '../../../../shared/store/people-journal.ts';

const installationKey = 'calendar-secret';
const keyOf = (personId: string) => `${installationKey}/${personId}`;
const digest = (text: string) => createHash('sha256').update(text).digest();

export function calendarAddresses({ settings, people }: Pick<Journal, 'settings' | 'people'>) {
  const make = async (key: string) => {
    const secret = randomBytes(32).toString('base64url');
    await settings.set(key, secret);
    return secret;
  };
  /** Whoever is no person of the journal, as this machine before anybody is set up, stands for the server. */
  const keyFor = async (person: Person | null) =>
    person !== null && (await people.get(person.id)) ? keyOf(person.id) : installationKey;

  return {
    async of(person: Person | null): Promise<string> {
      const key = await keyFor(person);
      return (await settings.get(key)) ?? (await make(key));
    },
    /** An owner may have shown the address of the server around before each had their own: it ends with theirs. */
    async renew(person: Person | null): Promise<string> {
      const key = await keyFor(person);
      if (key !== installationKey && person?.role === 'owner') await make(installationKey);
      return make(key);
    },
    /** @returns Whose it is, null for the server's; undefined when it is not good. */
    async whose(secret: string): Promise<{ readonly person: PersonRecord | null } | undefined> {
      const asked = digest(secret);
      const holders = [null, ...(await people.list())];
      const known = await Promise.all(
        holders.map(async (person) => ({
          person,
          kept: await settings.get(person === null ? installationKey : keyOf(person.id)),
        })),
      );
      const good = known.filter(({ kept }) => kept !== undefined && timingSafeEqual(asked, digest(kept)));
      return good[0] && { person: good[0].person };
    },
  };
}
