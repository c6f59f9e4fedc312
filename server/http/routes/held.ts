/** What a person holds that opens the pages or notifies them: seen and ended by an owner, as when a phone is lost. */
import { z } from 'zod';
import {
  endedAnswerSchema,
  type HeldDevice,
  heldAnswerSchema,
  heldEndedSchema,
  sessionsAnswerSchema,
} from '../../../shared/contracts/people.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PushDevice } from '../../../shared/store/notifications-store.ts';
import type { PersonRecord, SessionRecord, TokenRecord } from '../../../shared/store/people-journal.ts';
import { Refusal } from '../../refusal.ts';
import type { AuditedCode } from '../../services/people/audited-code.ts';
import type { People } from '../../services/people/open-people.ts';
import { sessionView } from '../../services/people/session-view.ts';
import { tokenView } from '../../services/people/token-view.ts';
import { calendarAddresses } from '../../services/records/calendar/calendar-addresses.ts';
import { deviceView } from '../../services/views/device-view.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';

const idSchema = z.string().min(1).max(64);
const personParams = z.object({ id: idSchema });
const itemParams = z.object({ id: idSchema, item: z.string().min(1).max(100) });

const reads = { access: 'owner' } as const;
const owner = (does: AuditedCode) => ({ ...reads, does }) as const;

interface HeldParts {
  readonly journal: Journal;
  readonly people: People;
}

/** All that one person holds. */
interface Held {
  readonly sessions: readonly SessionRecord[];
  readonly tokens: readonly TokenRecord[];
  readonly devices: readonly PushDevice[];
}

export function registerHeld(api: Api, parts: HeldParts): void {
  registerAllHeld(api, parts);
  registerHeldSessions(api, parts);
  registerHeldTokens(api, parts);
  registerHeldDevices(api, parts);
}

function registerAllHeld(api: Api, { journal, people }: HeldParts): void {
  api.get(
    '/api/people/:id/held',
    { config: reads, schema: { params: personParams, response: { 200: heldAnswerSchema } } },
    async (request) => {
      const { id, name } = await personNamed(journal, request.params.id);
      const held = await heldBy(journal, id);
      return {
        sessions: held.sessions.map((one) => sessionView(one, request.session)),
        tokens: held.tokens.map((one) => tokenView(one, name)),
        devices: held.devices.map((one) => ({ ...deviceView(one), by: signedUpBy(one, held) })),
      };
    },
  );

  api.delete(
    '/api/people/:id/held',
    {
      config: owner('audit.did.ended-all-that-person-holds'),
      schema: {
        params: personParams,
        description: 'Sessions, tokens, devices that are notified, links they made, and their calendar address.',
        response: { 200: heldEndedSchema },
      },
    },
    async (request) => {
      const { id, name, role } = await personNamed(journal, request.params.id);
      const held = await heldBy(journal, id);
      const ended = { sessions: held.sessions.length, tokens: held.tokens.length, devices: held.devices.length };
      // As a list: a field named after tokens would be left out of the row.
      const counts = Object.entries(ended).map(([what, count]) => ({ what, count }));
      audit(request, { subject: name, before: { held: counts } });
      await journal.people.endHeld(id);
      await calendarAddresses(journal).renew({ id, name, role, via: 'session' });
      people.changed();
      return ended;
    },
  );
}

function registerHeldSessions(api: Api, { journal, people }: HeldParts): void {
  api.get(
    '/api/people/:id/sessions',
    { config: reads, schema: { params: personParams, response: { 200: sessionsAnswerSchema } } },
    async (request) => {
      const { id } = await personNamed(journal, request.params.id);
      return { sessions: (await journal.sessions.list(id)).map((one) => sessionView(one, request.session)) };
    },
  );

  api.delete(
    '/api/people/:id/sessions',
    {
      config: owner('audit.did.ended-sessions-of-person'),
      schema: { params: personParams, response: { 200: endedAnswerSchema } },
    },
    async (request) => {
      const { id, name } = await personNamed(journal, request.params.id);
      audit(request, { subject: name });
      return { ended: await people.sessions.end({ personId: id }) };
    },
  );

  api.delete(
    '/api/people/:id/sessions/:item',
    {
      config: owner('audit.did.ended-session-of-person'),
      schema: { params: itemParams, response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      const { id, name } = await personNamed(journal, request.params.id);
      const { item } = request.params;
      const before = (await journal.sessions.list(id)).find((one) => one.id === item);
      if (!before || (await people.sessions.end({ personId: id, id: item })) === 0) throw notTheirs('session', item);
      audit(request, { subject: name, before: { address: before.address, agent: before.agent } });
      return reply.code(204).send();
    },
  );
}

function registerHeldTokens(api: Api, { journal, people }: HeldParts): void {
  api.delete(
    '/api/people/:id/tokens/:item',
    {
      config: owner('audit.did.revoked-api-token-of-person'),
      schema: { params: itemParams, response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      const { id, name } = await personNamed(journal, request.params.id);
      const { item } = request.params;
      const before = (await journal.tokens.list(id)).find((one) => one.id === item);
      if (!before || !(await people.tokens.revoke(item, id))) throw notTheirs('token', item);
      audit(request, { subject: name, before: { name: before.name, scope: before.scope } });
      return reply.code(204).send();
    },
  );
}

function registerHeldDevices(api: Api, { journal }: HeldParts): void {
  const { devices } = journal.notifications;
  api.delete(
    '/api/people/:id/devices/:item',
    {
      config: owner('audit.did.removed-device-of-person-from-notifications'),
      schema: { params: itemParams, response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      const { id, name } = await personNamed(journal, request.params.id);
      const { item } = request.params;
      const before = (await devices.list(id)).find((one) => one.id === item);
      if (!before || !(await devices.remove(item, id))) throw notTheirs('device', item);
      audit(request, { subject: name, before: { label: before.label } });
      return reply.code(204).send();
    },
  );
}

/** @throws {Refusal} 404 when nobody has this id. */
async function personNamed(journal: Journal, id: string): Promise<PersonRecord> {
  const person = await journal.people.get(id);
  if (!person) throw new Refusal(404, message('problem.not-found', { what: 'person', idText: id }));
  return person;
}

async function heldBy({ sessions, tokens, notifications }: Journal, personId: string): Promise<Held> {
  const [ofSessions, ofTokens, ofDevices] = await Promise.all([
    sessions.list(personId),
    tokens.list(personId),
    notifications.devices.list(personId),
  ]);
  return { sessions: ofSessions, tokens: ofTokens, devices: ofDevices };
}

const notTheirs = (what: 'session' | 'token' | 'device', id: string) =>
  new Refusal(404, message('problem.not-theirs', { what, idText: id }));

function signedUpBy({ madeWith }: PushDevice, { sessions, tokens }: Held): HeldDevice['by'] {
  if (madeWith === null) return 'unknown';
  if (sessions.some(({ id }) => id === madeWith)) return 'session';
  return tokens.some(({ id }) => id === madeWith) ? 'token' : 'over';
}
