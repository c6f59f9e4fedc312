/** People of a test server, come in as anyone does: by links, with passwords, signed in. */
import type { FastifyInstance, InjectOptions } from 'fastify';
import type { Role, Scope } from '../../shared/person.ts';
import type { TestInstallation } from './open-test-server.ts';

export const passwordOf = (name: string): string => `${name} minds the kettle and the copper lantern`;

/** What a page of ours sends with a change. */
export const fromOwnPage = { 'sec-fetch-site': 'same-origin' } as const;

/** The `Cookie` header a browser would send back. */
export function cookiesOf(answer: { cookies: { name: string; value: string; maxAge?: number }[] }): string {
  return answer.cookies
    .filter(({ maxAge, value }) => maxAge !== 0 && value !== '')
    .map(({ name, value }) => `${name}=${value}`)
    .join('; ');
}

let network = 0;
/** A fresh address each time, so that no test slows down another. */
export const freshAddress = (): string => {
  network += 1;
  return `198.18.${network >> 8}.${network & 255}`;
};

export async function signIn(app: FastifyInstance, name: string, more: Partial<InjectOptions> = {}): Promise<string> {
  const answer = await app.inject({
    method: 'POST',
    url: '/api/session',
    payload: { name, password: passwordOf(name) },
    remoteAddress: freshAddress(),
    ...more,
  });
  if (answer.statusCode !== 200) throw new Error(answer.body);
  return cookiesOf(answer);
}

/** Somebody joins by a link; the first one is the owner, by the link of the start. @returns Their cookies. */
export async function join({ app, installation }: TestInstallation, name: string, role: Role): Promise<string> {
  const kind = role === 'owner' && !(await installation.journal.people.hasOwner()) ? 'setup' : 'invitation';
  const { secret } = await installation.people.links.make({ kind, role, maker: null, lengthMs: 60_000 });
  const answer = await app.inject({
    method: 'POST',
    url: '/api/links/use',
    payload: { secret, name, password: passwordOf(name) },
    remoteAddress: freshAddress(),
  });
  if (answer.statusCode !== 200) throw new Error(answer.body);
  return cookiesOf(answer);
}

export const as = (cookie: string): Record<string, string> => ({ cookie, ...fromOwnPage });

export interface TestPeople {
  /** Headers of Olive, Kim and Vera, signed in. */
  readonly owner: Record<string, string>;
  readonly keeper: Record<string, string>;
  readonly viewer: Record<string, string>;
}

export async function settlePeople(one: TestInstallation): Promise<TestPeople> {
  return {
    owner: as(await join(one, 'Olive', 'owner')),
    keeper: as(await join(one, 'Kim', 'keeper')),
    viewer: as(await join(one, 'Vera', 'viewer')),
  };
}

/** @param headers Of whoever makes the token, who has kept the password they joined with. */
export async function makeToken(app: FastifyInstance, headers: Record<string, string>, scope: Scope): Promise<string> {
  const { person } = (await app.inject({ url: '/api/session', headers })).json<{ person: { name: string } }>();
  const answer = await app.inject({
    method: 'POST',
    url: '/api/tokens',
    headers,
    payload: { name: scope, scope, password: passwordOf(person.name) },
    remoteAddress: freshAddress(),
  });
  if (answer.statusCode !== 201) throw new Error(answer.body);
  return answer.json<{ secret: string }>().secret;
}
