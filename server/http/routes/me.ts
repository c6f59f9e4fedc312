/** One's own sessions, password and language; for whoever is signed in. */
import { z } from 'zod';
import {
  endedAnswerSchema,
  passwordChangeSchema,
  readingSchema,
  sessionsAnswerSchema,
} from '../../../shared/contracts/people.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { AuditedCode } from '../../services/people/audited-code.ts';
import type { People } from '../../services/people/open-people.ts';
import { sessionView } from '../../services/people/session-view.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { inPerson } from '../in-person.ts';
import { notFound } from '../problem.ts';

const idParams = z.object({ id: z.string().min(1).max(64) });

const reads = { access: 'viewer', inPerson: true } as const;
const viewer = (does: AuditedCode) => ({ ...reads, does }) as const;

interface MeParts {
  readonly journal: Journal;
  readonly people: People;
}

export function registerMe(api: Api, parts: MeParts): void {
  registerOwnSessions(api, parts);
  registerOwnSettings(api, parts);
}

function registerOwnSessions(api: Api, { journal, people }: MeParts): void {
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
    {
      config: viewer('audit.did.ended-their-other-sessions'),
      schema: { response: { 200: endedAnswerSchema } },
    },
    async (request) => {
      const { id, session } = inPerson(request);
      return { ended: await people.sessions.end({ personId: id, exceptDigest: session.digest }) };
    },
  );

  api.delete(
    '/api/me/sessions/:id',
    {
      config: viewer('audit.did.ended-session'),
      schema: { params: idParams, response: { 200: endedAnswerSchema } },
    },
    async (request, reply) => {
      const { id } = inPerson(request);
      const ended = await people.sessions.end({ personId: id, id: request.params.id });
      return ended > 0 ? { ended } : notFound(reply, 'session', request.params.id);
    },
  );
}

function registerOwnSettings(api: Api, { journal, people }: MeParts): void {
  api.put(
    '/api/me/reading',
    {
      config: viewer('audit.did.changed-how-they-read'),
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
      config: { ...viewer('audit.did.changed-their-password'), rateLimit: { max: 30, timeWindow: 60_000 } },
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
}
