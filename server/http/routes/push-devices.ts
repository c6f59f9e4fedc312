/** The devices that a person is notified on: signed up, handed over when somebody else signs in there, removed. */
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import { deviceHereAnswerSchema } from '../../../shared/contracts/device-here.ts';
import { deviceHereSchema, newPushDeviceSchema, pushDeviceSchema } from '../../../shared/contracts/notifications.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { DeviceHere, PushDevice } from '../../../shared/store/notifications-store.ts';
import { randomId } from '../../id-from-name.ts';
import type { Delivery } from '../../notify/delivery.ts';
import { Refusal } from '../../refusal.ts';
import type { AuditedCode } from '../../services/people/audited-code.ts';
import type { People } from '../../services/people/open-people.ts';
import { deviceView } from '../../services/views/device-view.ts';
import type { Api } from '../api.ts';
import { notFound } from '../problem.ts';
import { findRecipient, recipientAsking } from '../recipient-asking.ts';

const idParams = z.object({ id: z.string().min(1).max(100) });
const viewer = { access: 'viewer' as const };
const mostDevices = 20;

interface PushDevicesParts {
  readonly delivery: Delivery;
  readonly journal: Journal;
  readonly clock: Clock;
  readonly people: People;
}

export function registerPushDevices(api: Api, parts: PushDevicesParts): void {
  const { people } = parts.delivery;

  api.post(
    '/api/notifications/devices',
    {
      config: { ...viewer, does: 'audit.did.signed-up-device-for-notifications' },
      schema: { body: newPushDeviceSchema, response: { 201: pushDeviceSchema } },
    },
    async (request, reply) => {
      const { id } = await recipientAsking(people, request);
      const device = await signUpDevice(parts, id, signedUpWith(request), request.body);
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
      const { publicKey: pushKey } = await parts.delivery.pushKeys.pair();
      return { isSubscribed: await handOverDevice(parts, request, request.body.endpoint), pushKey };
    },
  );

  api.delete(
    '/api/notifications/devices/:id',
    {
      config: { ...viewer, does: 'audit.did.removed-device-from-notifications' },
      schema: { params: idParams, response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      const person = await findRecipient(people, request);
      const { id } = request.params;
      const removed = person !== undefined && (await parts.journal.notifications.devices.remove(id, person.id));
      return removed ? reply.code(204).send() : notFound(reply, 'device', id);
    },
  );
}

/** @throws {Refusal} 409 when the person has as many devices as are kept. */
async function signUpDevice(
  { journal, clock }: Pick<PushDevicesParts, 'journal' | 'clock'>,
  personId: string,
  madeWith: string | null,
  { endpoint, keys, label }: z.output<typeof newPushDeviceSchema>,
): Promise<PushDevice> {
  const { devices } = journal.notifications;
  const before = await devices.list(personId);
  const known = before.find((one) => one.endpoint === endpoint);
  if (!known && before.length >= mostDevices) {
    throw new Refusal(409, message('problem.most-devices', { mostCount: mostDevices }));
  }
  const id = known?.id ?? randomId();
  const device = { id, personId, endpoint, ...keys, label, addedAtMs: clock.nowMs(), lastOkAtMs: null, madeWith };
  await devices.keep(device);
  return device;
}

/**
 * The browser behind an endpoint now belongs to whoever asks, by the session they ask with. A move from another session
 * or person is written into the audit trail.
 * @returns Whether that device notifies them.
 */
async function handOverDevice(
  { delivery, journal, people }: PushDevicesParts,
  request: FastifyRequest,
  endpoint: string,
): Promise<boolean> {
  const { devices } = journal.notifications;
  const person = await findRecipient(delivery.people, request);
  const before = (await devices.list()).find((one) => one.endpoint === endpoint);
  if (!person || !before) return false;
  const madeWith = signedUpWith(request);
  if (madeWith === null) return before.personId === person.id;
  await people.trail.settle();
  const state = await devices.here(endpoint, person.id, madeWith);
  const what = handOvers[state];
  if (what !== undefined) await people.trail.add(request, { what: message(what), subject: before.label });
  return state === 'known' || state === 'moved';
}

const handOvers: Readonly<Partial<Record<DeviceHere, AuditedCode>>> = {
  anothers: 'audit.did.took-over-device',
  moved: 'audit.did.signed-in-anew-on-device',
};

/** By what a device is signed up, and with which it ends. */
function signedUpWith({ session, tokenId }: FastifyRequest): string | null {
  return session?.id ?? tokenId;
}
