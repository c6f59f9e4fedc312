/** Who belongs to the server, and who is asked in; for owners. */
import { z } from 'zod';
import type { Config } from '../../../shared/config.ts';
import {
  invitationsAnswerSchema,
  memberChangeSchema,
  memberSchema,
  newInvitationSchema,
  newLinkAnswerSchema,
  peopleAnswerSchema,
} from '../../../shared/contracts/people.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PersonRecord } from '../../../shared/store/people-journal.ts';
import { linkLengths, linkPath } from '../../services/people/links.ts';
import { nameKeyOf } from '../../services/people/names.ts';
import type { People } from '../../services/people/open-people.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound } from '../problem.ts';
import { publicAddress } from '../public-address.ts';

const dayMs = 86_400_000;
const personParams = z.object({ id: z.string().min(1).max(64) });

interface PeopleParts {
  readonly journal: Journal;
  readonly people: People;
  readonly config: Pick<Config, 'PUBLIC_URL'>;
}

export function registerPeople(api: Api, { journal, people, config }: PeopleParts): void {
  const owner = (does: string) => ({ access: 'owner', does }) as const;

  const shown = async (members: readonly PersonRecord[]) => {
    const sessions = await journal.sessions.list();
    return members.map(({ id, name, role, createdAtMs }) => {
      const seen = sessions.filter(({ personId }) => personId === id).map(({ seenAtMs }) => seenAtMs);
      const seenAt = seen.length === 0 ? null : toInstant(Math.max(...seen));
      return { id, name, role, since: toInstant(createdAtMs), seenAt };
    });
  };

  api.get(
    '/api/people',
    { config: { access: 'owner' }, schema: { response: { 200: peopleAnswerSchema } } },
    async () => {
      const [people, damaged] = await Promise.all([journal.people.list(), journal.people.damaged()]);
      return { people: await shown(people), damaged };
    },
  );

  api.patch(
    '/api/people/:id',
    {
      config: owner('changed a person'),
      schema: { params: personParams, body: memberChangeSchema, response: { 200: memberSchema } },
    },
    async (request, reply) => {
      const { id } = request.params;
      const before = await journal.people.get(id);
      if (!before) return notFound(reply, 'person', id);
      const { name, role } = request.body;
      await journal.people.change(id, {
        ...(name !== undefined && { name, nameKey: nameKeyOf(name) }),
        ...(role !== undefined && { role }),
      });
      people.changed();
      audit(request, { subject: before.name, before: { name: before.name, role: before.role } });
      const after = await journal.people.get(id);
      const [view] = after ? await shown([after]) : [];
      return view ?? notFound(reply, 'person', id);
    },
  );

  api.delete(
    '/api/people/:id',
    { config: owner('removed a person'), schema: { params: personParams, response: { 204: z.undefined() } } },
    async (request, reply) => {
      const { id } = request.params;
      const readable = await journal.people.get(id);
      const before = readable ?? (await journal.people.damaged()).find((one) => one.id === id);
      if (!before) return notFound(reply, 'person', id);
      await journal.people.remove(id, people.nowMs());
      people.changed();
      audit(request, { subject: before.name, before: { name: before.name, role: readable?.role ?? 'damaged' } });
      return reply.code(204).send();
    },
  );

  api.post(
    '/api/people/:id/reset',
    {
      config: owner('made a link for a new password'),
      schema: { params: personParams, response: { 201: newLinkAnswerSchema } },
    },
    async (request, reply) => {
      const person = await journal.people.get(request.params.id);
      if (!person) return notFound(reply, 'person', request.params.id);
      const { link, secret } = await people.links.make({
        kind: 'reset',
        role: person.role,
        personId: person.id,
        maker: request.person,
        lengthMs: linkLengths.resetMs,
      });
      audit(request, { subject: person.name });
      reply.header('Cache-Control', 'no-store');
      return reply.code(201).send({
        id: link.id,
        role: link.role,
        address: `${publicAddress(config.PUBLIC_URL, request)}${linkPath('reset', secret)}`,
        endsAt: toInstant(link.endsAtMs),
      });
    },
  );

  api.get(
    '/api/invitations',
    { config: { access: 'owner' }, schema: { response: { 200: invitationsAnswerSchema } } },
    async () => {
      const open = await journal.links.open(people.nowMs());
      return {
        invitations: open
          .filter(({ kind }) => kind === 'invitation')
          .map(({ id, role, madeBy, madeAtMs, endsAtMs }) => ({
            id,
            role,
            madeBy,
            madeAt: toInstant(madeAtMs),
            endsAt: toInstant(endsAtMs),
          })),
      };
    },
  );

  api.post(
    '/api/invitations',
    {
      config: owner('invited somebody'),
      schema: { body: newInvitationSchema, response: { 201: newLinkAnswerSchema } },
    },
    async (request, reply) => {
      const { role, days } = request.body;
      const maker = request.person;
      const { link, secret } = await people.links.make({ kind: 'invitation', role, maker, lengthMs: days * dayMs });
      reply.header('Cache-Control', 'no-store');
      return reply.code(201).send({
        id: link.id,
        role,
        address: `${publicAddress(config.PUBLIC_URL, request)}${linkPath('invitation', secret)}`,
        endsAt: toInstant(link.endsAtMs),
      });
    },
  );

  api.delete(
    '/api/invitations/:id',
    { config: owner('took back an invitation'), schema: { params: personParams, response: { 204: z.undefined() } } },
    async (request, reply) => {
      if (!(await journal.links.remove(request.params.id))) return notFound(reply, 'invitation', request.params.id);
      return reply.code(204).send();
    },
  );
}
