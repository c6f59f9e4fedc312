/** One's own sessions and password, and tokens for programs; for whoever is signed in. */
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import {
  endedAnswerSchema,
  newTokenAnswerSchema,
  newTokenSchema,
  passwordChangeSchema,
  readingSchema,
  sessionsAnswerSchema,
  tokensAnswerSchema,
} from '../../../shared/contracts/people.ts';
import { roleWithin } from '../../../shared/person.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { People } from '../../services/people/open-people.ts';
import { sessionView } from '../../services/people/session-view.ts';
import { tokenView } from '../../services/people/token-view.ts';
import { Refusal } from '../../services/refusal.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound } from '../problem.ts';

const dayMs = 86_400_000;
const idParams = z.object({ id: z.string().min(1).max(64) });

interface MeParts {
  readonly journal: Journal;
  readonly people: People;
}

export function registerMe(api: Api, { journal, people }: MeParts): void {
  const reads = { access: 'viewer', inPerson: true } as const;
  const viewer = (does: string) => ({ ...reads, does }) as const;

  api.get(
    '/api/me/sessions',
    { config: reads, schema: { response: { 200: sessionsAnswerSchema } } },
    async (request) => {
      const { id } = inPerson(request);
      return { sessions: (await journal.sessions.list(id)).map((one) => sessionView(one, request.session)) };
    },
  );

  api.delete(
    '/api/me/sessions',
    { config: viewer('ended their other sessions'), schema: { response: { 200: endedAnswerSchema } } },
    async (request) => {
      const { id, session } = inPerson(request);
      return { ended: await people.sessions.end({ personId: id, exceptDigest: session.digest }) };
    },
  );

  api.delete(
    '/api/me/sessions/:id',
    { config: viewer('ended a session'), schema: { params: idParams, response: { 200: endedAnswerSchema } } },
    async (request, reply) => {
      const { id } = inPerson(request);
      const ended = await people.sessions.end({ personId: id, id: request.params.id });
      return ended > 0 ? { ended } : notFound(reply, 'session', request.params.id);
    },
  );

  api.put(
    '/api/me/reading',
    {
      config: viewer('changed how they read'),
      schema: { body: readingSchema, response: { 200: readingSchema } },
    },
    async (request) => {
      const { language } = request.body;
      await journal.people.change(inPerson(request).id, { language });
      people.changed();
      return { language };
    },
  );

  api.put(
    '/api/me/password',
    {
      config: { ...viewer('changed their password'), rateLimit: { max: 30, timeWindow: 60_000 } },
      schema: { body: passwordChangeSchema, response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      const person = await journal.people.get(inPerson(request).id);
      if (!person) return notFound(reply, 'person', '');
      await people.signIn.changePassword(request, reply, person, request.body);
      people.changed();
      audit(request, { after: undefined });
      return reply.code(204).send();
    },
  );

  api.get(
    '/api/tokens',
    {
      config: reads,
      schema: { description: 'One’s own; those of everybody for an owner.', response: { 200: tokensAnswerSchema } },
    },
    async (request) => {
      const { id, role } = inPerson(request);
      const tokens = await journal.tokens.list(role === 'owner' ? undefined : id);
      const names = new Map((await journal.people.list()).map(({ id, name }) => [id, name]));
      return { tokens: tokens.map((token) => tokenView(token, names.get(token.personId) ?? '')) };
    },
  );

  api.post(
    '/api/tokens',
    {
      config: { ...viewer('made an API token'), rateLimit: { max: 30, timeWindow: 60_000 } },
      schema: { body: newTokenSchema, response: { 201: newTokenAnswerSchema } },
    },
    async (request, reply) => {
      const { id, name: personName, role } = inPerson(request);
      const { name, scope, days, password } = request.body;
      if (roleWithin('owner', scope) !== roleWithin(role, scope)) {
        throw new Refusal(422, 'A token cannot do more than you may yourself.', { pointer: '/scope' });
      }
      const person = await journal.people.get(id);
      if (!person) return notFound(reply, 'person', id);
      await people.signIn.confirm(request, person, password, '/password');
      const endsAtMs = days === undefined ? null : people.nowMs() + days * dayMs;
      const { token, secret } = await people.tokens.make(id, name, scope, endsAtMs);
      audit(request, { subject: name, after: { name, scope, days } });
      reply.header('Cache-Control', 'no-store');
      return reply.code(201).send({ ...tokenView(token, personName), secret });
    },
  );

  api.delete(
    '/api/tokens/:id',
    {
      config: viewer('revoked an API token'),
      schema: { params: idParams, response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      const { id } = request.params;
      const person = inPerson(request);
      const mine = person.role === 'owner' ? undefined : person.id;
      const before = (await journal.tokens.list(mine)).find((token) => token.id === id);
      if (!before || !(await people.tokens.revoke(id, mine))) return notFound(reply, 'token', id);
      audit(request, { subject: before.name, before: { name: before.name, scope: before.scope } });
      return reply.code(204).send();
    },
  );
}

/** The guard lets nobody else through to these routes. */
function inPerson(request: FastifyRequest) {
  const { person, session } = request;
  if (!person || !session) throw new Error('a route for people in person was reached without a session');
  return { ...person, session };
}
