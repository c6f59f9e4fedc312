import { expect, test } from 'vitest';
import { type KnownPerson, Recipients } from '../../../server/notify/people.ts';
import { preferencesSchema } from '../../../shared/notifications.ts';
import type { NotificationsStore } from '../../../shared/store/notifications-store.ts';

const mailTo = 'yard@saltmere.example';
const ada: KnownPerson = { id: 'ada', name: 'Ada', role: 'owner', language: null };
const bram: KnownPerson = { id: 'bram', name: 'Bram', role: 'keeper', language: null };

/** Who can be told, by name and address, of people of whom some want e-mail. */
async function notified(
  known: readonly KnownPerson[],
  mailed: readonly string[],
  installationMail: string | null = mailTo,
) {
  const preferences = mailed.map((personId) => ({
    personId,
    preferences: preferencesSchema.parse({ email: { on: true, address: `${personId}@saltmere.example` } }),
  }));
  const notifications = {
    preferences: { list: async () => preferences },
    devices: { list: async () => [] },
    mailAddresses: {
      list: async () =>
        mailed.map((personId) => ({
          personId,
          address: `${personId}@saltmere.example`,
          standing: 'confirmed',
          sinceMs: 0,
        })),
    },
  };
  const people = new Recipients({
    services: { list: async () => [] },
    notifications: notifications as unknown as NotificationsStore,
    known: async () => known,
    canMail: true,
    mailTo: installationMail ?? undefined,
  });
  return (await people.listeners()).flatMap(({ name, channels }) =>
    channels.map(({ address }) => `${name}: ${address}`),
  );
}

test.each([
  ['nobody is set up', [], [], [`the server: ${mailTo}`]],
  ['an owner is set up who has no channel yet', [ada], [], [`the server: ${mailTo}`]],
  ['the owner can be told', [ada], ['ada'], ['Ada: ada@saltmere.example']],
  ['only another person can be told', [ada, bram], ['bram'], ['Bram: bram@saltmere.example']],
] as const)('while %s, those who are told are right', async (_, known, mailed, expected) => {
  expect(await notified(known, mailed)).toEqual(expected);
});

test('without an address of the server nobody is made up to be told', async () => {
  expect(await notified([ada], [], null)).toEqual([]);
  expect(await notified([], [], null)).toEqual([]);
});
