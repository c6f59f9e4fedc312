/** Links that let somebody in once: an invitation, or a new password for whoever forgot theirs; for owners. */
import { z } from 'zod';
import type { Config } from '../../../shared/config.ts';
import { invitationsAnswerSchema, newInvitationSchema, newLinkAnswerSchema } from '../../../shared/contracts/people.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { LinkRecord } from '../../../shared/store/people-journal.ts';
import { msPerDay } from '../../../shared/units.ts';
import { linkLengths, linkPath } from '../../services/people/links.ts';
import type { People } from '../../services/people/open-people.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound } from '../problem.ts';
import { publicAddress } from '../public-address.ts';

const idParams = z.object({ id: z.string().min(1).max(64) });

interface PeopleLinksParts {
  readonly journal: Journal;
  readonly people: People;
  readonly config: Pick<Config, 'PUBLIC_URL'>;
}

export function registerPeopleLinks(api: Api, parts: PeopleLinksParts): void {
  registerResets(api, parts);
  registerInvitations(api, parts);
}

function registerResets(api: Api, { journal, people, config }: PeopleLinksParts): void {
  api.post(
    '/api/people/:id/reset',
    {
      config: { access: 'owner', does: 'audit.did.made-link-for-new-password' },
      schema: { params: idParams, response: { 201: newLinkAnswerSchema } },
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
      return reply.code(201).send(newLinkAnswer(link, secret, publicAddress(config.PUBLIC_URL, request)));
    },
  );
}

function registerInvitations(api: Api, { journal, people, config }: PeopleLinksParts): void {
  api.get(
    '/api/invitations',
    { config: { access: 'owner' }, schema: { response: { 200: invitationsAnswerSchema } } },
    async () => {
      const open = await journal.links.open(people.nowMs());
      return { invitations: open.filter(({ kind }) => kind === 'invitation').map(invitationView) };
    },
  );

  api.post(
    '/api/invitations',
    {
      config: { access: 'owner', does: 'audit.did.invited-somebody' },
      schema: { body: newInvitationSchema, response: { 201: newLinkAnswerSchema } },
    },
    async (request, reply) => {
      const { role, days } = request.body;
      const maker = request.person;
      const { link, secret } = await people.links.make({ kind: 'invitation', role, maker, lengthMs: days * msPerDay });
      reply.header('Cache-Control', 'no-store');
      return reply.code(201).send(newLinkAnswer(link, secret, publicAddress(config.PUBLIC_URL, request)));
    },
  );

  api.delete(
    '/api/invitations/:id',
    {
      config: { access: 'owner', does: 'audit.did.took-back-invitation' },
      schema: { params: idParams, response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      if (!(await journal.links.remove(request.params.id))) return notFound(reply, 'invitation', request.params.id);
      return reply.code(204).send();
    },
  );
}

function invitationView({ id, role, madeBy, madeAtMs, endsAtMs }: LinkRecord) {
  return { id, role, madeBy, madeAt: toInstant(madeAtMs), endsAt: toInstant(endsAtMs) };
}

/** The only time that its secret is shown. @param base Where people reach the server, without a slash at its end. */
function newLinkAnswer({ id, kind, role, endsAtMs }: LinkRecord, secret: string, base: string) {
  return { id, role, address: `${base}${linkPath(kind, secret)}`, endsAt: toInstant(endsAtMs) };
}
