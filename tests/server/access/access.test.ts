import Fastify, { type InjectOptions } from 'fastify';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { registerRouteAccess } from '../../../server/http/route-access.ts';
import { problemSchema } from '../../../shared/api/problem.ts';
import { type Access, isAllowed, type Person, type Role, roles } from '../../../shared/person.ts';
import { makeDataDir, openTestHouse, type TestHouse } from '../../helpers/open-test-house.ts';
import { accessTable } from './access-table.ts';

interface Operation {
  readonly 'x-access'?: Access;
  readonly security?: readonly unknown[];
}

let one: TestHouse;
let remove: () => Promise<void>;
let described: Map<string, Operation>;

const personOf = (role: Role): Person => ({ id: role, name: role, role, via: 'session' });
const callers: Record<string, Role | undefined> = {
  nobody: undefined,
  viewer: 'viewer',
  keeper: 'keeper',
  owner: 'owner',
};

beforeAll(async () => {
  const folder = await makeDataDir();
  remove = folder.remove;
  one = await openTestHouse(folder.dataDir, {}, undefined, {
    people: {
      async personOf(request) {
        const role = roles.find((role) => role === request.headers['x-caller']);
        return role === undefined ? null : personOf(role);
      },
      onlyHere: () => false,
    },
  });
  const { paths } = (await one.app.inject({ url: '/api/openapi.json', headers: { 'x-caller': 'owner' } })).json<{
    paths: Record<string, Record<string, Operation>>;
  }>();
  described = new Map(
    Object.entries(paths).flatMap(([path, methods]) =>
      Object.entries(methods).map(([method, operation]) => [`${method.toUpperCase()} ${path}`, operation] as const),
    ),
  );
});
afterAll(async () => {
  await one.close();
  await remove();
});

/** The status alone: a stream of changes never ends by itself. */
async function statusOf(route: string, caller: string): Promise<[number, unknown]> {
  const [method, path = ''] = route.split(' ');
  const answer = await one.app.inject({
    method: method as NonNullable<InjectOptions['method']>,
    url: path.replaceAll(/\{[^}]+\}/g, 'x'),
    headers: { 'x-caller': caller },
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
    for (const [route, operation] of described) {
      expect([route, (operation.security?.length ?? 0) > 0]).toEqual([route, accessTable[route] !== 'open']);
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

  for (const [caller, role] of Object.entries(callers)) {
    for (const [route, access] of Object.entries(accessTable)) {
      const allowed = isAllowed(role, access);
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
      (await one.app.inject({ url: '/api/nowhere', headers: { 'x-caller': caller } })).statusCode;
    expect([await status('nobody'), await status('viewer')]).toEqual([401, 404]);
  });

  test('sends the protecting headers with a refusal too', async () => {
    const { headers } = await one.app.inject({ url: '/api/piles' });
    expect(headers['x-content-type-options']).toBe('nosniff');
    expect(headers['content-security-policy']).toContain("frame-ancestors 'none'");
  });
});
