import { afterAll, beforeAll, expect, test } from 'vitest';
import { openNewTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';

let one: TestInstallation;
beforeAll(async () => {
  one = await openNewTestInstallation();
});
afterAll(() => one.closeAndRemove());

interface Operation {
  readonly requestBody?: { readonly content: Record<string, unknown> };
  readonly responses: Record<string, { readonly content?: Record<string, unknown> }>;
}

const served: [method: string, path: string, body: string | null, answers: string][] = [
  ['get', '/api/piles/{id}/entries', null, 'application/json'],
  ['post', '/api/piles/{id}/entries', 'application/json', 'application/json'],
  ['post', '/api/entries', 'application/json', 'application/json'],
  ['get', '/api/entries/{id}', null, 'application/json'],
  ['post', '/api/entries/{id}/corrections', 'application/json', 'application/json'],
  ['post', '/api/entries/{id}/withdrawal', 'application/json', 'application/json'],
  ['put', '/api/photos/{id}', 'image/jpeg', 'application/json'],
  ['get', '/api/photos/{id}', null, 'image/jpeg'],
  ['get', '/api/batches', null, 'application/json'],
  ['get', '/api/batches/{id}', null, 'application/json'],
  ['patch', '/api/batches/{id}', 'application/json', 'application/json'],
  ['get', '/api/batches/{id}/entries', null, 'application/json'],
  ['post', '/api/batches/{id}/continue', 'application/json', 'application/json'],
  ['post', '/api/batches/{id}/split', 'application/json', 'application/json'],
  ['post', '/api/batches/merge', 'application/json', 'application/json'],
  ['post', '/api/batches/{id}/abandon', 'application/json', 'application/json'],
  ['post', '/api/batches/{id}/uses', 'application/json', 'application/json'],
  ['post', '/api/batches/{id}/keep', 'application/json', 'application/json'],
  ['post', '/api/batches/{id}/inputs', 'application/json', 'application/json'],
  ['delete', '/api/batches/{id}/inputs/{flowId}', null, 'application/json'],
  ['get', '/api/batches/{id}/readiness', null, 'application/json'],
  ['get', '/api/batches/{id}/record', null, 'application/json'],
  ['get', '/api/batches/{id}/record.pdf', null, 'application/pdf'],
  ['get', '/api/batches/{id}/readings.csv', null, 'text/csv'],
  ['get', '/api/batches/{id}/readings.json', null, 'application/json'],
  ['get', '/api/lots', null, 'application/json'],
  ['post', '/api/lots', 'application/json', 'application/json'],
  ['patch', '/api/lots/{id}', 'application/json', 'application/json'],
  ['get', '/api/lineage', null, 'application/json'],
  ['get', '/api/export/{subject}.csv', null, 'text/csv'],
  ['get', '/api/export/{subject}.json', null, 'application/json'],
  ['get', '/api/export/all.json', null, 'application/json'],
  ['get', '/api/calendar', null, 'application/json'],
  ['post', '/api/calendar/renewal', null, 'application/json'],
  ['get', '/calendar/{secret}.ics', null, 'text/calendar'],
  ['get', '/api/piles/{id}/label', null, 'application/json'],
  ['get', '/api/piles/{id}/label.svg', null, 'image/svg+xml'],
  ['post', '/api/import/preview', 'application/json', 'application/json'],
  ['post', '/api/import/commit', 'application/json', 'application/json'],
];

test('GET /api/openapi.json describes journal, batches, records and import with what they take and answer', async () => {
  const { paths } = (await one.app.inject({ url: '/api/openapi.json' })).json<{
    paths: Record<string, Record<string, Operation>>;
  }>();
  const described = served.map(([method, path]): (typeof served)[number] => {
    const operation = paths[path]?.[method];
    const good = Object.entries(operation?.responses ?? {}).find(([status]) => status.startsWith('2'))?.[1];
    const takes = Object.keys(operation?.requestBody?.content ?? {})[0] ?? null;
    return [method, path, takes, Object.keys(good?.content ?? {})[0] ?? 'not described'];
  });
  expect(described).toEqual(served);
});
