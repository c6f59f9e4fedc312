import { afterAll, beforeAll, expect, test } from 'vitest';
import { openNewTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';

let one: TestInstallation;
beforeAll(async () => {
  one = await openNewTestInstallation();
});
afterAll(() => one.closeAndRemove());

const nested = (depth: number, inner: string) => `${'[null,'.repeat(depth)}${inner}${']'.repeat(depth)}`;
const rows: [where: string, url: string, body: string | undefined, status: number][] = [
  ['a field', '/api/sites', '{"name":"Ya\\u0000rd"}', 400],
  ['the name of a field', '/api/sites', '{"name":"Yard","a\\u0000":1}', 400],
  ['a list 5,000 deep', '/api/sites', `{"name":"Yard","more":${nested(5_000, '"\\u0000"')}}`, 400],
  ['an address', '/api/piles/a%00b', undefined, 400],
  ['what is asked for', '/api/audit?words=a%00b', undefined, 400],
  ['no place', '/api/sites', `{"name":"Yard","more":${nested(50, '"0"')}}`, 201],
];
for (const [where, url, payload, status] of rows) {
  test(`NUL in ${where}: ${status}`, async () => {
    const headers = { 'content-type': 'application/json' };
    const answer = await one.app.inject(payload ? { method: 'POST', url, payload, headers } : { url });
    expect(answer.statusCode).toBe(status);
    if (status === 400) expect(answer.body).toContain('NUL');
  });
}
