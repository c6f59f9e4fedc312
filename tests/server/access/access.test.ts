import Fastify, { type InjectOptions } from 'fastify';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { registerRouteAccess } from '../../../server/http/route-access.ts';
import { problemSchema } from '../../../shared/contracts/problem.ts';
import { type Access, isAllowed, type Role } from '../../../shared/person.ts';
import { openNewTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';
import { as, freshAddress, join, makeToken, settlePeople, signIn } from '../../helpers/people.ts';
import { accessTable, inPersonOnly } from './access-table.ts';

interface Operation {
  readonly 'x-access'?: Access;
  readonly 'x-in-person'?: true;
  readonly security?: readonly Record<string, unknown>[];
}

let one: TestInstallation;
let described: Map<string, Operation>;
let headersOf: Record<string, Record<string, string>>;

/** Who asks, what they may do at most, and whether they are there in person. */
const callers: [caller: string, role: Role | undefined, inPerson: boolean][] = [
  ['nobody', undefined, false],
  ['a viewer', 'viewer', true],
  ['a keeper', 'keeper', true],
  ['an owner', 'owner', true],
  ['a token that may read', 'viewer', false],
  ['a token that may keep', 'keeper', false],
  ['a token that may all its owner may', 'owner', false],
  ['a viewer whose token once could do more', 'viewer', false],
  ['the token of the environment', 'owner', false],
  ['a token that was revoked', undefined, false],
  ['a session that has ended', undefined, false],
];
const ofEnvironment = 'a-token-of-the-environment';

beforeAll(async () => {
  one = await openNewTestInstallation({ API_TOKEN: ofEnvironment });
  const { app, installation } = one;
  const { owner, keeper, viewer } = await settlePeople(one);
  const bearer = (secret: string) => ({ authorization: `Bearer ${secret}` });
  const demoted = as(await join(one, 'Ivo', 'owner'));
  const demotedToken = await makeToken(app, demoted, 'own');
  const ivo = (await installation.journal.people.byNameKey('ivo'))?.id;
  await app.inject({ method: 'PATCH', url: `/api/people/${ivo}`, headers: owner, payload: { role: 'viewer' } });
  const revoked = await makeToken(app, owner, 'own');
  const id = (await installation.journal.tokens.list()).find(({ name }) => name === 'own')?.id;
  await app.inject({ method: 'DELETE', url: `/api/tokens/${id}`, headers: owner });
  const left = as(await signIn(app, 'Olive'));
  await app.inject({ method: 'DELETE', url: '/api/session', headers: left });
  headersOf = {
    nobody: {},
    'a viewer': viewer,
    'a keeper': keeper,
    'an owner': owner,
    'a token that may read': bearer(await makeToken(app, owner, 'read')),
    'a token that may keep': bearer(await makeToken(app, owner, 'keep')),
    'a token that may all its owner may': bearer(await makeToken(app, owner, 'own')),
    'a viewer whose token once could do more': bearer(demotedToken),
    'the token of the environment': bearer(ofEnvironment),
    'a token that was revoked': bearer(revoked),
    'a session that has ended': left,
  };
  const { paths } = (await one.app.inject({ url: '/api/openapi.json', headers: headersOf['an owner'] ?? {} })).json<{
    paths: Record<string, Record<string, Operation>>;
  }>();
  described = new Map(
    Object.entries(paths).flatMap(([path, methods]) =>
      Object.entries(methods).map(([method, operation]) => [`${method.toUpperCase()} ${path}`, operation] as const),
    ),
  );
});
afterAll(() => one.closeAndRemove());

/** The status alone: a stream of changes never ends by itself. */
async function statusOf(route: string, caller: string): Promise<[number, unknown]> {
  const [method, path = ''] = route.split(' ');
  const answer = await one.app.inject({
    method: method as NonNullable<InjectOptions['method']>,
    url: path.replaceAll(/\{[^}]+\}/g, 'x'),
    headers: headersOf[caller] ?? {},
    remoteAddress: freshAddress(),
    payloadAsStream: true,
  });
  const stream = answer.stream();
  if (answer.statusCode !== 401 && answer.statusCode !== 403) {
    stream.destroy();
    return [answer.statusCode, undefined];
  }
  let text = '';
  for await (const chunk of stream) text += chunk;
  return [answer.statusCode, JSON.parse(text)];
}

describe('the table of who may call what', () => {
  test('has a row for every route of the description, and no other row', () => {
    expect(Object.keys(accessTable).sort()).toEqual([...described.keys()].sort());
  });

  test('says the same as the description, which names the ways to become known unless a route is open', () => {
    const told = Object.fromEntries([...described].map(([route, operation]) => [route, operation['x-access']]));
    expect(told).toEqual(accessTable);
    for (const [route, { security = [] }] of described) {
      const ways = accessTable[route] === 'open' ? [] : inPersonOnly.has(route) ? ['session'] : ['session', 'token'];
      expect([route, security.flatMap((way) => Object.keys(way))]).toEqual([route, ways]);
    }
  });

  test('misses no route of the application but documents and files of the pages', () => {
    const undescribed = one.app.routeList.filter(
      ({ method, url }) => method !== 'HEAD' && !described.has(`${method} ${url.replaceAll(/:(\w+)/g, '{$1}')}`),
    );
    expect(
      undescribed.filter(({ hidden, access, method }) => !(hidden && access === 'open' && method === 'GET')),
    ).toEqual([]);
  });

  test('lets a viewer change nothing but what is their own, beside what only counts', () => {
    const changing = Object.keys(accessTable).filter(
      (route) => !route.startsWith('GET ') && accessTable[route] === 'viewer',
    );
    expect(
      changing.filter(
        (route) =>
          !route.includes(' /api/plan/') &&
          !route.includes(' /api/notifications') &&
          route !== 'POST /api/calendar/renewal' &&
          !inPersonOnly.has(route),
      ),
    ).toEqual([]);
  });

  for (const [caller, role, inPerson] of callers) {
    for (const [route, access] of Object.entries(accessTable)) {
      // It would end the session with which the other rows are asked for.
      if (route === 'DELETE /api/session') continue;
      const allowed = isAllowed(role, access) && (inPerson || !inPersonOnly.has(route));
      const refusal = role === undefined ? 401 : 403;
      test(`${route} ${allowed ? 'lets' : `answers ${refusal} to`} ${caller}${allowed ? ' in' : ''}`, async () => {
        const [status, body] = await statusOf(route, caller);
        if (allowed) return expect([401, 403]).not.toContain(status);
        expect(status).toBe(refusal);
        expect(problemSchema.parse(body).status).toBe(refusal);
      });
    }
  }
});

describe('an application', () => {
  test('is not built while a route says nothing of who may call it', async () => {
    const app = Fastify();
    const { refuseUnguarded } = registerRouteAccess(app);
    app.get('/api/said', { config: { access: 'viewer' } }, async () => 'said');
    expect(refuseUnguarded).not.toThrow();
    app.post('/api/unsaid', async () => 'unsaid');
    expect(refuseUnguarded).toThrowError('missing at POST /api/unsaid');
    await expect(app.ready()).rejects.toThrowError('POST /api/unsaid');
  });

  test('answers an address under /api/ that it does not have with 401 to somebody unknown, 404 to a viewer', async () => {
    const status = async (caller: string) =>
      (await one.app.inject({ url: '/api/nowhere', headers: headersOf[caller] ?? {} })).statusCode;
    expect([await status('nobody'), await status('a viewer')]).toEqual([401, 404]);
  });

  test('sends the protecting headers with a refusal too', async () => {
    const { headers } = await one.app.inject({ url: '/api/piles' });
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['content-security-policy']).toContain("frame-ancestors 'none'");
  });
});
