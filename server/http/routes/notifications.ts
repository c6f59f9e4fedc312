/** How each person wants to be notified, their devices, and a test for each channel. */
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import type { Config } from '../../../shared/config.ts';
import {
  type NotificationsAnswer,
  notificationSchema,
  notificationsAnswerSchema,
  testAskSchema,
} from '../../../shared/contracts/notifications.ts';
import { message } from '../../../shared/messages/message.ts';
import { preferencesSchema } from '../../../shared/notifications.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { randomId } from '../../id-from-name.ts';
import type { Delivery } from '../../notify/delivery.ts';
import type { KnownPerson } from '../../notify/people.ts';
import { countTest } from '../../notify/sending-bounds.ts';
import { Refusal } from '../../refusal.ts';
import type { People } from '../../services/people/open-people.ts';
import { deviceView } from '../../services/views/device-view.ts';
import { notificationView } from '../../services/views/notification-view.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound } from '../problem.ts';
import { recipientAsking } from '../recipient-asking.ts';
import { registerMailAddress } from './mail-address.ts';
import { registerNotificationServices } from './notification-services.ts';
import { registerPushDevices } from './push-devices.ts';

const idParams = z.object({ id: z.string().min(1).max(100) });
const viewer = { access: 'viewer' as const };

interface NotificationsParts {
  readonly delivery: Delivery;
  readonly journal: Journal;
  readonly clock: Clock;
  readonly people: People;
  readonly config: Pick<Config, 'PUBLIC_URL'>;
}

export function registerNotifications(api: Api, parts: NotificationsParts): void {
  registerPreferences(api, parts);
  registerTests(api, parts);
  registerPushDevices(api, parts);
  registerMailAddress(api, parts.delivery);
  registerNotificationServices(api, parts.delivery);
}

function registerPreferences(api: Api, parts: NotificationsParts): void {
  const { delivery, journal } = parts;
  const { people } = delivery;

  api.get(
    '/api/notifications',
    { config: viewer, schema: { response: { 200: notificationsAnswerSchema } } },
    async (request) => preferencesView(parts, await recipientAsking(people, request)),
  );

  api.put(
    '/api/notifications',
    {
      config: { ...viewer, does: 'audit.did.changed-their-notifications' },
      schema: { body: preferencesSchema, response: { 200: notificationsAnswerSchema } },
    },
    async (request) => {
      const person = await recipientAsking(people, request);
      await journal.notifications.preferences.set(person.id, request.body);
      // An address taken away is nobody's: entered again it is confirmed again.
      if (request.body.email.address === '') await journal.notifications.mailAddresses.forget(person.id);
      return preferencesView(parts, person);
    },
  );

  api.post(
    '/api/notifications/webhook-secret',
    {
      config: { ...viewer, does: 'audit.did.made-webhook-secret' },
      schema: { response: { 200: z.object({ secret: z.string() }) } },
    },
    async (request) => {
      const { id } = await recipientAsking(people, request);
      return { secret: await delivery.settings.renewWebhookSecret(id) };
    },
  );
}

/** A test of a channel, and how it went with that or any other notice. */
function registerTests(api: Api, parts: NotificationsParts): void {
  api.post(
    '/api/notifications/test',
    {
      config: { ...viewer, does: 'audit.did.had-test-sent' },
      schema: { body: testAskSchema, response: { 202: z.object({ id: z.string() }) } },
    },
    async (request, reply) => {
      const { id: personId } = await recipientAsking(parts.delivery.people, request);
      audit(request, { subject: request.body.channel });
      const id = await sendTest(parts, personId, request.body);
      return reply.code(202).send({ id });
    },
  );

  api.get(
    '/api/notifications/notices/:id',
    { config: viewer, schema: { params: idParams, response: { 200: notificationSchema } } },
    async (request, reply) => {
      const { id } = request.params;
      const notice = await parts.journal.notifications.notices.get(id);
      return notice ? notificationView(notice) : notFound(reply, 'notification', id);
    },
  );
}

async function preferencesView(
  { delivery, journal, config }: NotificationsParts,
  { id, name, role }: KnownPerson,
): Promise<NotificationsAnswer> {
  return {
    person: { id, name, isOwner: role === 'owner' },
    preferences: await delivery.people.preferencesOf(id),
    devices: (await journal.notifications.devices.list(id)).map(deviceView),
    services: await delivery.services.views(id),
    mail: await delivery.mail.view(id),
    pushKey: (await delivery.pushKeys.pair()).publicKey,
    canMail: delivery.can('email'),
    hasPublicAddress: config.PUBLIC_URL !== undefined,
  };
}

/**
 * @returns The notice to ask for how the test went.
 * @throws {Refusal} 409 while the address is not confirmed; 429 after too many tests.
 */
async function sendTest(
  { delivery, journal, clock, people }: NotificationsParts,
  personId: string,
  test: z.output<typeof testAskSchema>,
): Promise<string> {
  if (test.channel === 'email' && ['waiting', 'before'].includes((await delivery.people.mailOf(personId)).standing)) {
    throw new Refusal(409, message('problem.mail.unconfirmed'));
  }
  await countTest(journal.attempts, personId, people.nowMs());
  const id = randomId();
  await delivery.notify([testNotice(id, personId, test, clock.nowMs())]);
  return id;
}

function testNotice(id: string, personId: string, channel: z.output<typeof testAskSchema>, atMs: number) {
  const nobody = { siteId: null, pileId: null, alarmId: null };
  const about = { about: 'person' as const, answer: 'test' as const, rank: 1 };
  return { id, key: `test/${id}`, ...about, ...nobody, personId, atMs, dueMs: atMs, facts: channel };
}
