/** Tokens for programs: made, listed and revoked by whoever is signed in. */
import type { FastifyRequest } from 'fastify';
import { z } from 'zod';
import { newTokenAnswerSchema, newTokenSchema, tokensAnswerSchema } from '../../../shared/contracts/people.ts';
import { message } from '../../../shared/messages/message.ts';
import { type Person, roleWithin } from '../../../shared/person.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { msPerDay } from '../../../shared/units.ts';
import { Refusal } from '../../refusal.ts';
import type { AuditedCode } from '../../services/people/audited-code.ts';
import type { People } from '../../services/people/open-people.ts';
import { tokenView } from '../../services/people/token-view.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { inPerson } from '../in-person.ts';
import { notFound } from '../problem.ts';

const idParams = z.object({ id: z.string().min(1).max(64) });
const reads = { access: 'viewer', inPerson: true } as const;
const viewer = (does: AuditedCode) => ({ ...reads, does }) as const;

interface TokensParts {
  readonly journal: Journal;
  readonly people: People;
}

export function registerTokens(api: Api, parts: TokensParts): void {
  const { journal, people } = parts;

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
      config: { ...viewer('audit.did.made-api-token'), rateLimit: { max: 30, timeWindow: 60_000 } },
      schema: { body: newTokenSchema, response: { 201: newTokenAnswerSchema } },
    },
    async (request, reply) => {
      const person = inPerson(request);
      const { name, scope, days } = request.body;
      const { token, secret } = await makeToken(parts, request, person, request.body);
      audit(request, { subject: name, after: { name, scope, days } });
      reply.header('Cache-Control', 'no-store');
      return reply.code(201).send({ ...tokenView(token, person.name), secret });
    },
  );

  api.delete(
    '/api/tokens/:id',
    {
      config: viewer('audit.did.revoked-api-token'),
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

/** @throws {Refusal} When the token would do more than its maker may, or the password is not theirs. */
async function makeToken(
  { journal, people }: TokensParts,
  request: FastifyRequest,
  { id, role }: Pick<Person, 'id' | 'role'>,
  { name, scope, days, password }: z.output<typeof newTokenSchema>,
) {
  if (roleWithin('owner', scope) !== roleWithin(role, scope)) {
    throw new Refusal(422, message('problem.token-beyond-you'), { pointer: '/scope' });
  }
  const person = await journal.people.get(id);
  if (!person) throw new Refusal(404, message('problem.not-found', { what: 'person', idText: id }));
  await people.signIn.confirm(request, person, password, '/password');
  const endsAtMs = days === undefined ? null : people.nowMs() + days * msPerDay;
  return people.tokens.make(id, name, scope, endsAtMs);
}
