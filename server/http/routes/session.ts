/** Signing in and out, and the links by which people come in. */
import { z } from 'zod';
import type { Config } from '../../../shared/config.ts';
import {
  linkLookSchema,
  linkShownSchema,
  linkUseSchema,
  sessionAnswerSchema,
  signInSchema,
} from '../../../shared/contracts/people.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PersonRecord } from '../../../shared/store/people-journal.ts';
import type { People } from '../../services/people/open-people.ts';
import type { Api } from '../api.ts';

/** More than anyone needs, and few enough that neither memory nor journal suffers. */
const rateLimit = { max: 30, timeWindow: 60_000 };

interface SessionParts {
  readonly people: People;
  readonly journal: Journal;
  readonly config: Pick<Config, 'API_TOKEN'>;
}

export function registerSession(api: Api, { people, journal, config }: SessionParts): void {
  const open = { access: 'open', does: false } as const;
  const now = async (person: PersonRecord | null) => ({
    person: person && {
      id: person.id,
      name: person.name,
      role: person.role,
      via: 'session' as const,
      ...(person.language !== null && { language: person.language }),
    },
    hasOwner: await journal.people.hasOwner(),
    hasToken: config.API_TOKEN !== undefined,
  });

  api.get(
    '/api/session',
    { config: open, schema: { response: { 200: sessionAnswerSchema } } },
    async (request, reply) => {
      reply.header('Cache-Control', 'no-store');
      return { ...(await now(null)), person: request.person };
    },
  );

  api.post(
    '/api/session',
    { config: { ...open, rateLimit }, schema: { body: signInSchema, response: { 200: sessionAnswerSchema } } },
    async (request, reply) => now(await people.signIn.signIn(request, reply, request.body.name, request.body.password)),
  );

  api.delete('/api/session', { config: open, schema: { response: { 204: z.undefined() } } }, async (request, reply) => {
    if (request.person?.via === 'session') await people.trail.add(request, { what: message('audit.did.signed-out') });
    await people.sessions.leave(request, reply);
    return reply.code(204).send();
  });

  api.post(
    '/api/links/look',
    { config: { ...open, rateLimit }, schema: { body: linkLookSchema, response: { 200: linkShownSchema } } },
    async (request) => {
      const { link, person } = await people.links.find(request.body.secret);
      const { kind, role, madeBy, endsAtMs } = link;
      return { kind, role, name: person?.name ?? null, madeBy, endsAt: toInstant(endsAtMs) };
    },
  );

  api.post(
    '/api/links/use',
    { config: { ...open, rateLimit }, schema: { body: linkUseSchema, response: { 200: sessionAnswerSchema } } },
    async (request, reply) => {
      const { secret, name, password } = request.body;
      const person = await people.links.use(request, reply, { secret, name, password });
      people.changed();
      return now(person);
    },
  );
}
