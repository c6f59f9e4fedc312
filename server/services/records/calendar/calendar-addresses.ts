/**
 * The secret of each person's calendar address, and whether one is still good. It never takes the secret of somebody
 * who was removed, or tells by its answering time how much of one was right.
 */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import type { Person } from '../../../../shared/person.ts';
import type { Journal } from '../../../../shared/store/journal.ts';

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
    async isGood(secret: string): Promise<boolean> {
      const asked = digest(secret);
      const keys = [installationKey, ...(await people.list()).map(({ id }) => keyOf(id))];
      const known = await Promise.all(keys.map((key) => settings.get(key)));
      return known.filter((one) => one !== undefined && timingSafeEqual(asked, digest(one))).length > 0;
    },
  };
}
