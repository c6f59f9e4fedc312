/** How each person wants to be notified, their devices, and a test for each channel. */
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import type { Config } from '../../../shared/config.ts';
import {
  deviceHereAnswerSchema,
  deviceHereSchema,
  type NotificationsAnswer,
  newPushDeviceSchema,
  notificationSchema,
  notificationsAnswerSchema,
  pushDeviceSchema,
  testAskSchema,
} from '../../../shared/contracts/notifications.ts';
import { preferencesSchema } from '../../../shared/notifications.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { Delivery } from '../../notify/delivery.ts';
import { type KnownPerson, serverPerson } from '../../notify/people.ts';
import { countTest } from '../../notify/sending-bounds.ts';
import { randomId } from '../../services/id-from-name.ts';
import type { People } from '../../services/people/open-people.ts';
import { Refusal } from '../../services/refusal.ts';
import { notificationView } from '../../services/views/notification-view.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound, sendProblem } from '../problem.ts';
import { deviceView } from './held.ts';
import { registerMailAddress } from './mail-address.ts';

const idParams = z.object({ id: z.string().min(1).max(100) });
const viewer = { access: 'viewer' as const };
const mostDevices = 20;
const nobodyThere =
  'The token of the environment stands for no person, so there is nobody to notify. Use a token that a person made under "My account", or sign in by name. What holds for the whole house is under /api/notifications/server and /api/notifications/escalations.';

interface NotificationsParts {
  readonly delivery: Delivery;
  readonly journal: Journal;
  readonly clock: Clock;
  readonly people: People;
  readonly config: Pick<Config, 'PUBLIC_URL'>;
}

export function registerNotifications(api: Api, parts: NotificationsParts): void {
  const { delivery, journal, clock } = parts;
  const { people } = delivery;

  /** Whoever asks, as somebody who is told; a program with the server's own token speaks for the server. */
  const asking = async (request: FastifyRequest): Promise<KnownPerson | undefined> => {
    const known = await people.known();
    return known.find(({ id }) => id === request.person?.id) ?? known.find(({ id }) => id === serverPerson.id);
  };
  const noPerson = (reply: FastifyReply) => sendProblem(reply, 409, nobodyThere);

  const answer = async (person: KnownPerson): Promise<NotificationsAnswer> => ({
    person: { id: person.id, name: person.name, isOwner: person.role === 'owner' },
    preferences: await people.preferencesOf(person.id),
    devices: (await journal.notifications.devices.list(person.id)).map(deviceView),
    mail: await delivery.mail.view(person.id),
    pushKey: (await delivery.pushKeys.pair()).publicKey,
    canMail: delivery.can('email'),
    hasPublicAddress: parts.config.PUBLIC_URL !== undefined,
  });

  api.get(
    '/api/notifications',
    { config: viewer, schema: { response: { 200: notificationsAnswerSchema } } },
    async (request, reply) => {
      const person = await asking(request);
      return person ? answer(person) : noPerson(reply);
    },
  );

  api.put(
    '/api/notifications',
    {
      config: { ...viewer, does: 'changed how they are told' },
      schema: { body: preferencesSchema, response: { 200: notificationsAnswerSchema } },
    },
    async (request, reply) => {
      const person = await asking(request);
      if (!person) return noPerson(reply);
      await journal.notifications.preferences.set(person.id, request.body);
      // An address taken away is nobody's: entered again it is confirmed again.
      if (request.body.email.address === '') await journal.notifications.mailAddresses.forget(person.id);
      return answer(person);
    },
  );

  api.post(
    '/api/notifications/devices',
    {
      config: { ...viewer, does: 'signed up a device to be told' },
      schema: { body: newPushDeviceSchema, response: { 201: pushDeviceSchema } },
    },
    async (request, reply) => {
      const person = await asking(request);
      if (!person) return noPerson(reply);
      const { endpoint, keys, label } = request.body;
      const before = await journal.notifications.devices.list(person.id);
      const known = before.find((one) => one.endpoint === endpoint);
      if (!known && before.length >= mostDevices) {
        return sendProblem(reply, 409, `At most ${mostDevices} devices are kept for one person; remove one first.`);
      }
      const device = {
        id: known?.id ?? randomId(),
        personId: person.id,
        endpoint,
        ...keys,
        label,
        addedAtMs: clock.nowMs(),
        lastOkAtMs: null,
        madeWith: signedUpWith(request),
      };
      await journal.notifications.devices.keep(device);
      return reply.code(201).send(deviceView(device));
    },
  );

  api.post(
    '/api/notifications/devices/here',
    {
      config: { ...viewer, does: false },
      schema: {
        description: 'A browser says who sits there now: their device goes with this session, another’s ends.',
        body: deviceHereSchema,
        response: { 200: deviceHereAnswerSchema },
      },
    },
    async (request) => {
      const person = await asking(request);
      const { endpoint } = request.body;
      const before = (await journal.notifications.devices.list()).find((one) => one.endpoint === endpoint);
      const { publicKey: pushKey } = await delivery.pushKeys.pair();
      if (!person || !before) return { isSubscribed: false, pushKey };
      const madeWith = signedUpWith(request);
      if (madeWith === null) return { isSubscribed: before.personId === person.id, pushKey };
      await parts.people.trail.settle();
      const state = await journal.notifications.devices.here(endpoint, person.id, madeWith);
      if (state === 'anothers') {
        await parts.people.trail.add(request, {
          what: 'signed in on a device that was told for somebody else, which ended that',
          subject: before.label,
        });
      }
      if (state === 'moved') {
        await parts.people.trail.add(request, {
          what: 'signed in anew on a device that is told',
          subject: before.label,
        });
      }
      return { isSubscribed: state === 'known' || state === 'moved', pushKey };
    },
  );

  api.delete(
    '/api/notifications/devices/:id',
    {
      config: { ...viewer, does: 'removed a device from being told' },
      schema: { params: idParams, response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      const person = await asking(request);
      const { id } = request.params;
      if (!person || !(await journal.notifications.devices.remove(id, person.id)))
        return notFound(reply, 'device of yours', id);
      return reply.code(204).send();
    },
  );

  api.post(
    '/api/notifications/test',
    {
      config: { ...viewer, does: 'had a test sent' },
      schema: { body: testAskSchema, response: { 202: z.object({ id: z.string() }) } },
    },
    async (request, reply) => {
      const person = await asking(request);
      if (!person) return noPerson(reply);
      const { channel } = request.body;
      if (channel === 'email' && ['waiting', 'before'].includes((await people.mailOf(person.id)).standing)) {
        return sendProblem(reply, 409, 'Confirm this e-mail address first: until then only a code is sent to it.');
      }
      await countTest(journal.attempts, person.id, parts.people.nowMs());
      audit(request, { subject: channel });
      const id = randomId();
      await delivery.notify([testNotice(id, person.id, request.body, clock.nowMs())]);
      return reply.code(202).send({ id });
    },
  );

  registerMailAddress(api, delivery, async (request) => {
    const person = await asking(request);
    if (!person) throw new Refusal(409, nobodyThere);
    return person;
  });

  api.get(
    '/api/notifications/notices/:id',
    { config: viewer, schema: { params: idParams, response: { 200: notificationSchema } } },
    async (request, reply) => {
      const told = await journal.notifications.notices.get(request.params.id);
      return told ? notificationView(told) : notFound(reply, 'notice', request.params.id);
    },
  );

  api.post(
    '/api/notifications/webhook-secret',
    {
      config: { ...viewer, does: 'made a webhook secret' },
      schema: { response: { 200: z.object({ secret: z.string() }) } },
    },
    async (request, reply) => {
      const person = await asking(request);
      if (!person) return noPerson(reply);
      return { secret: await delivery.settings.renewWebhookSecret(person.id) };
    },
  );
}

function testNotice(id: string, personId: string, channel: z.infer<typeof testAskSchema>, atMs: number) {
  const nobody = { siteId: null, pileId: null, alarmId: null };
  const about = { about: 'person' as const, answer: 'test' as const, rank: 1 };
  return { id, key: `test/${id}`, ...about, ...nobody, personId, atMs, dueMs: atMs, facts: channel };
}

/** By what a device is signed up, and with which it ends. */
function signedUpWith({ session, tokenId }: FastifyRequest): string | null {
  return session?.id ?? tokenId;
}
