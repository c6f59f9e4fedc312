/** Who belongs to the server; for owners. */
import { z } from 'zod';
import { memberChangeSchema, memberSchema, peopleAnswerSchema } from '../../../shared/contracts/people.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { memberViews } from '../../services/people/member-views.ts';
import { nameKeyOf } from '../../services/people/names.ts';
import type { People } from '../../services/people/open-people.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound } from '../problem.ts';

const personParams = z.object({ id: z.string().min(1).max(64) });

interface PeopleParts {
  readonly journal: Journal;
  readonly people: People;
}

export function registerPeople(api: Api, { journal, people }: PeopleParts): void {
  api.get(
    '/api/people',
    { config: { access: 'owner' }, schema: { response: { 200: peopleAnswerSchema } } },
    async () => {
      const [people, damaged] = await Promise.all([journal.people.list(), journal.people.damaged()]);
      return { people: await memberViews(journal, people), damaged };
    },
  );

  api.patch(
    '/api/people/:id',
    {
      config: { access: 'owner', does: 'audit.did.changed-person' },
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
      const [view] = after ? await memberViews(journal, [after]) : [];
      return view ?? notFound(reply, 'person', id);
    },
  );

  api.delete(
    '/api/people/:id',
    {
      config: { access: 'owner', does: 'audit.did.removed-person' },
      schema: { params: personParams, response: { 204: z.undefined() } },
    },
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
}
