import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { problemSchema } from '../../shared/contracts/problem.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';

const token = 'a-token-of-the-server';

describe('with BRANHEARTH_API_TOKEN set', () => {
  let test1: TestInstallation;
  let remove: () => Promise<void>;
  beforeAll(async () => {
    const folder = await makeDataDir();
    remove = folder.remove;
    test1 = await openTestInstallation(folder.dataDir, { API_TOKEN: token });
  });
  afterAll(async () => {
    await test1.close();
    await remove();
  });

  test('every route of the description but the open ones answers 401 as a problem without the token', async () => {
    const description = (
      await test1.app.inject({ url: '/api/openapi.json', headers: { authorization: `Bearer ${token}` } })
    ).json<{
      paths: Record<string, Record<string, { 'x-access'?: string }>>;
    }>();
    const routes = Object.entries(description.paths).flatMap(([path, methods]) =>
      Object.entries(methods)
        .filter(([, operation]) => operation['x-access'] !== 'open')
        .map(([method]) => ({ method: method.toUpperCase(), url: path.replaceAll(/\{[^}]+\}/g, 'x') })),
    );
    routes.push({ method: 'GET', url: '/api/nowhere' });
    expect(routes.length).toBeGreaterThan(20);
    for (const { method, url } of routes) {
      const answer = await test1.app.inject({ method: method as 'GET', url });
      expect([method, url, answer.statusCode]).toEqual([method, url, 401]);
      expect(answer.headers['content-type']).toContain('application/problem+json');
      expect(problemSchema.parse(answer.json()).status).toBe(401);
    }
  });

  const rows: [string, string | undefined, number][] = [
    ['no token', undefined, 401],
    ['a wrong token', 'Bearer not-the-token-of-it', 401],
    ['the right token with another scheme', `Basic ${token}`, 401],
    ['the right token with a letter more', `Bearer ${token}x`, 401],
    ['the right token', `Bearer ${token}`, 200],
    ['the right token, scheme in small letters', `bearer ${token}`, 200],
  ];
  for (const [what, authorization, status] of rows) {
    test(`GET /api/piles answers ${status} to ${what}`, async () => {
      const headers = authorization === undefined ? {} : { authorization };
      expect((await test1.app.inject({ url: '/api/piles', headers })).statusCode).toBe(status);
    });
  }

  test('GET /api/health answers without the token, and says that the rest needs one', async () => {
    const answer = await test1.app.inject({ url: '/api/health' });
    expect(answer.statusCode).toBe(200);
    expect(answer.json()).toMatchObject({ live: true, needsToken: true });
  });

  test('GET /metrics answers 401 without the token', async () => {
    expect((await test1.app.inject({ url: '/metrics' })).statusCode).toBe(401);
  });
});

describe('without a token', () => {
  let test1: TestInstallation;
  let remove: () => Promise<void>;
  beforeAll(async () => {
    const folder = await makeDataDir();
    remove = folder.remove;
    test1 = await openTestInstallation(folder.dataDir);
  });
  afterAll(async () => {
    await test1.close();
    await remove();
  });

  const rows: [string, Record<string, string>, number][] = [
    ['a program of this machine', { host: '127.0.0.1:4180' }, 200],
    ['a page of this machine', { host: 'localhost:4180', origin: 'http://localhost:4180' }, 200],
    ['IPv6 loopback', { host: '[::1]:4180' }, 200],
    ['a name rebound to this machine', { host: 'farm.example:4180' }, 403],
    ['a page from elsewhere', { host: '127.0.0.1:4180', origin: 'https://elsewhere.example' }, 403],
    ['a form from elsewhere', { host: '127.0.0.1:4180', 'sec-fetch-site': 'cross-site' }, 403],
    ['a sandboxed page', { host: '127.0.0.1:4180', origin: 'null' }, 403],
    ['a proxy of this machine', { host: '127.0.0.1:4180', 'x-forwarded-for': '192.0.2.7' }, 403],
    ['a proxy that tells only the name', { host: '127.0.0.1:4180', 'x-forwarded-server': 'farm.example' }, 403],
    ['a proxy after RFC 7239', { host: '127.0.0.1:4180', forwarded: 'for=192.0.2.7' }, 403],
    ['a go-between that names itself', { host: '127.0.0.1:4180', via: '1.1 farm' }, 403],
  ];
  for (const [what, headers, status] of rows) {
    test(`GET /api/piles answers ${status} to ${what}`, async () => {
      expect((await test1.app.inject({ url: '/api/piles', headers })).statusCode).toBe(status);
    });
  }

  const addresses: [string, number][] = [
    ['127.0.0.1', 200],
    ['127.8.9.10', 200],
    ['::1', 200],
    ['::ffff:127.0.0.1', 200],
    ['192.0.2.7', 403],
    ['::ffff:192.0.2.7', 403],
  ];
  for (const [remoteAddress, status] of addresses) {
    test(`GET /api/piles answers ${status} to ${remoteAddress}, whatever name it calls us by`, async () => {
      const headers = { host: '127.0.0.1:4180' };
      expect((await test1.app.inject({ url: '/api/piles', headers, remoteAddress })).statusCode).toBe(status);
    });
  }
});
