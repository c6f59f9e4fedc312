/**
 * Links that let somebody in once: the first owner, whoever is invited, whoever forgot a password.
 *
 * The secret stands behind "#" in the address, where no browser sends it and no log or proxy sees it; the page hands it
 * over in the body of a request. Only its digest is kept.
 */
import type { FastifyReply, FastifyRequest } from 'fastify';
import { message } from '../../../shared/messages/message.ts';
import type { Person, Role } from '../../../shared/person.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { LinkKind, LinkRecord, PersonRecord } from '../../../shared/store/people-journal.ts';
import { msPerHour } from '../../../shared/units.ts';
import { Refusal } from '../../refusal.ts';
import type { AuditTrail } from './audit-trail.ts';
import { nameKeyOf } from './names.ts';
import { hashPassword } from './passwords.ts';
import { digestOf, newId, newSecret } from './secrets.ts';
import type { Sessions } from './sessions.ts';
import { inTime, refuseWeak } from './sign-in.ts';

export const linkLengths = { setupMs: 24 * msPerHour, resetMs: 24 * msPerHour } as const;

export const linkPath = (kind: LinkKind, secret: string): string => `/${kind}#${secret}`;

export interface LinksParts {
  readonly journal: Journal;
  readonly sessions: Sessions;
  readonly trail: AuditTrail;
  readonly nowMs: () => number;
  /** Whether a token of the environment is set: what was made with one ends when it is taken away. */
  readonly hasToken: boolean;
}

export interface NewLink {
  readonly kind: LinkKind;
  readonly role: Role;
  readonly personId?: string;
  /** Null for the program itself, at its start. */
  readonly maker: Pick<Person, 'id' | 'name'> | null;
  readonly lengthMs: number;
}

export class Links {
  readonly #parts: LinksParts;

  constructor(parts: LinksParts) {
    this.#parts = parts;
  }

  /** @returns The link with its secret, which is shown this once. */
  async make({ kind, role, personId, maker, lengthMs }: NewLink): Promise<{ link: LinkRecord; secret: string }> {
    const secret = newSecret();
    const now = this.#parts.nowMs();
    const link: LinkRecord = {
      id: newId(),
      digest: digestOf(secret),
      kind,
      role,
      personId: personId ?? null,
      madeBy: maker?.name ?? null,
      madeById: maker?.id ?? null,
      madeAtMs: now,
      endsAtMs: now + lengthMs,
    };
    await this.#parts.journal.links.add(link);
    return { link, secret };
  }

  /** For the start of the server: a way in while it has no owner; undefined once it has one. */
  async setup(): Promise<string | undefined> {
    if (await this.#parts.journal.people.hasOwner()) return undefined;
    const { secret } = await this.make({
      kind: 'setup',
      role: 'owner',
      maker: null,
      lengthMs: linkLengths.setupMs,
    });
    return linkPath('setup', secret);
  }

  /** @throws {Refusal} 410 when it was used, has run out or never was. */
  async find(secret: string): Promise<{ link: LinkRecord; person: PersonRecord | undefined }> {
    const { journal, nowMs, hasToken } = this.#parts;
    const link = await journal.links.find(digestOf(secret), nowMs());
    if (link?.madeById === 'api-token' && !hasToken) throw spent();
    if (!link || (link.kind === 'setup' && (await journal.people.hasOwner()))) throw spent();
    const person = link.personId === null ? undefined : await journal.people.get(link.personId);
    if (link.kind === 'reset' && !person) throw spent();
    return { link, person };
  }

  /** Uses the link up, and signs its holder in. */
  async use(
    request: FastifyRequest,
    reply: FastifyReply,
    { secret, name, password }: { secret: string; name: string | undefined; password: string },
  ): Promise<PersonRecord> {
    const { journal, sessions, trail, nowMs } = this.#parts;
    const { link, person: known } = await this.find(secret);
    const said = known?.name ?? name;
    if (said === undefined) throw new Refusal(422, message('problem.link-needs-name'), { pointer: '/name' });
    refuseWeak(password, said, '/password');
    const passwordHash = await inTime(hashPassword(password));
    const person = known
      ? { ...known, passwordHash }
      : {
          id: newId(),
          name: said,
          nameKey: nameKeyOf(said),
          role: link.role,
          passwordHash,
          createdAtMs: nowMs(),
          language: null,
        };
    const isUsed = known
      ? await journal.people.resetPassword(known.id, passwordHash, link.digest, nowMs())
      : await journal.people.join(person, link.digest, nowMs());
    if (!isUsed) throw spent();
    await sessions.start(request, reply, person);
    await trail.add(request, {
      what: message(
        known
          ? 'audit.did.chose-new-password-by-link'
          : link.kind === 'setup'
            ? 'audit.did.became-first-owner'
            : 'audit.did.joined-by-link',
      ),
      person,
      after: { name: person.name, role: person.role, linkMadeBy: link.madeBy },
    });
    return person;
  }
}

const spent = () => new Refusal(410, message('problem.link-spent'));
