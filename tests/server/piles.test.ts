import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { pileDetailSchema, pilesAnswerSchema } from '../../shared/contracts/piles.ts';
import { probesAnswerSchema } from '../../shared/contracts/probes.ts';
import { problemSchema } from '../../shared/contracts/problem.ts';
import { seriesAnswerSchema } from '../../shared/contracts/series.ts';
import type { Quantity } from '../../shared/quantity.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { openNewTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';

let one: TestInstallation;
const hourMs = 3_600_000;

beforeAll(async () => {
  one = await openNewTestInstallation();
});
afterAll(() => one.closeAndRemove());

const post = (url: string, payload: object) => one.app.inject({ method: 'POST', url, payload });

/** Commits readings as ingest does: kept first, then told. */
async function commit(probe: string, quantity: Quantity, values: [number, number][]) {
  const readings = values.map(([atMs, value]) => ({ site: 'saltmere-yard', probe, quantity, atMs, value }));
  await commitReadings(one.installation, readings);
}

describe('sites and piles', () => {
  test('POST /api/sites makes a site, and refuses the same id or name with 409 and a pointer', async () => {
    const made = await post('/api/sites', { name: 'Saltmere Yard' });
    expect([made.statusCode, made.json()]).toMatchObject([201, { id: 'saltmere-yard', name: 'Saltmere Yard' }]);
    for (const [pointer, site] of [
      ['/id', { id: 'saltmere-yard', name: 'Another' }],
      ['/name', { name: 'Saltmere Yard' }],
    ] as const) {
      const again = await post('/api/sites', site);
      expect([again.statusCode, problemSchema.parse(again.json()).errors?.[0]?.pointer]).toEqual([409, pointer]);
    }
  });

  test('POST /api/sites gives a name that topics would write alike an id of its own', async () => {
    const ids = [];
    for (const name of ['Säge', 'Sage', 'Sage!'])
      ids.push((await post('/api/sites', { name })).json<{ id: string }>().id);
    expect(ids).toEqual(['sage', 'sage-2', 'sage-3']);
  });

  test('POST /api/piles lays Heap 1 at two sites, under ids that follow from nothing typed', async () => {
    const at = (site: string) => post('/api/piles', { site, name: 'Heap 1', stage: 'bran' });
    const made = [await at('saltmere-yard'), await at('sage')];
    expect(made.map(({ statusCode }) => statusCode)).toEqual([201, 201]);
    const [first, second] = made.map((one) => pileDetailSchema.parse(one.json()));
    expect([first?.name, second?.name, first?.id === second?.id]).toEqual(['Heap 1', 'Heap 1', false]);
    for (const one of [first, second]) expect(one?.id).not.toMatch(/heap/);
  });

  test('POST /api/piles makes a pile with its first batch, and what was not said is kept as not said', async () => {
    const made = await post('/api/piles', { site: 'saltmere-yard', id: 'cart-shed', name: 'Cart shed', stage: 'bran' });
    expect(made.statusCode).toBe(201);
    const pile = pileDetailSchema.parse(made.json());
    expect(pile).toMatchObject({ id: 'cart-shed', site: 'saltmere-yard' });
    expect(pile.recipe).toEqual({});
    expect(pile.assumed).toContainEqual({ fact: 'cover', value: 'breathable', origin: 'usual-of-stage' });
    expect(pile.limits.actC).toEqual({
      value: 50,
      unit: '°C',
      origin: 'common practice, no source',
      messages: { origin: { code: 'origin.practice', params: {} } },
    });
  });

  test('POST /api/piles keeps where a bed lies, and refuses a place it does not know', async () => {
    const lying = (shelter: string) =>
      post('/api/piles', {
        site: 'saltmere-yard',
        id: `under-${shelter}`,
        name: `Under ${shelter}`,
        stage: 'bran',
        recipe: { shelter },
      });
    const kept = await lying('roof');
    expect([kept.statusCode, kept.json()]).toMatchObject([201, { recipe: { shelter: 'roof' } }]);
    const refused = await lying('a-tree');
    expect(refused.statusCode).toBe(400);
    expect(problemSchema.parse(refused.json()).errors?.[0]?.pointer).toBe('/recipe/shelter');
  });

  test('POST /api/piles names each bad field by pointer', async () => {
    const answer = await post('/api/piles', { site: 'Not A Name', name: '', stage: 'porridge' });
    expect(answer.statusCode).toBe(400);
    const pointers = problemSchema.parse(answer.json()).errors?.map(({ pointer }) => pointer);
    expect(pointers?.sort()).toEqual(['/name', '/site', '/stage']);
  });

  test('POST /api/piles refuses an unknown site with 409, and a batch laid in the future with 422', async () => {
    expect((await post('/api/piles', { site: 'nowhere', id: 'p', name: 'P', stage: 'bran' })).statusCode).toBe(409);
    const startedAt = new Date(Date.now() + hourMs).toISOString();
    expect(
      (await post('/api/piles', { site: 'saltmere-yard', id: 'p', name: 'P', stage: 'bran', startedAt })).statusCode,
    ).toBe(422);
  });

  test('GET /api/piles/:id answers 404 as a problem for a pile it does not know', async () => {
    const answer = await one.app.inject({ url: '/api/piles/nope' });
    expect([answer.statusCode, problemSchema.parse(answer.json()).detail]).toEqual([404, 'There is no pile "nope".']);
  });
});

describe('a probe from unclaimed to a line on the chart', () => {
  const nowMs = Date.now();

  test('a probe nobody claimed is listed with its last values', async () => {
    await commit('p1', 'temperature', [
      [nowMs - 3 * hourMs, 21],
      [nowMs - 2 * hourMs, 24],
      [nowMs - hourMs, 27.5],
    ]);
    const { probes } = probesAnswerSchema.parse((await one.app.inject({ url: '/api/probes' })).json());
    expect(probes).toMatchObject([{ site: 'saltmere-yard', probe: 'p1', claim: null, last: { temperatureC: 27.5 } }]);
  });

  test('claiming it counts its readings from the start of the batch', async () => {
    await post('/api/piles', {
      site: 'saltmere-yard',
      id: 'claimed',
      name: 'Claimed',
      stage: 'bran',
      startedAt: new Date(nowMs - 4 * hourMs).toISOString(),
    });
    const claimed = await post('/api/probes/saltmere-yard/p1/claim', { pileId: 'claimed', position: 'core' });
    expect(claimed.statusCode).toBe(200);
    const { piles } = pilesAnswerSchema.parse((await one.app.inject({ url: '/api/piles' })).json());
    const pile = piles.find(({ id }) => id === 'claimed');
    expect(pile?.positions.core).toMatchObject({ probe: 'p1', temperatureC: 27.5, silent: false });
    expect(pile?.condition).toMatch(/\S.*\.$/);
  });

  test('GET /api/piles/:id/series gives at most `points` buckets with min, mean and max', async () => {
    const answer = await one.app.inject({ url: '/api/piles/claimed/series?points=2' });
    const series = seriesAnswerSchema.parse(answer.json());
    const buckets = series.positions.core?.temperatureC ?? [];
    expect(buckets.length).toBeGreaterThan(0);
    expect(buckets.length).toBeLessThanOrEqual(2);
    expect(buckets.reduce((sum, { count }) => sum + count, 0)).toBe(3);
    expect(Math.min(...buckets.map(({ min }) => min))).toBe(21);
    expect(Math.max(...buckets.map(({ max }) => max))).toBe(27.5);
  });

  test('the expected band stands beside it, from the batch’s start on', async () => {
    const answer = await one.app.inject({ url: '/api/piles/claimed/series?points=500' });
    const { expected } = seriesAnswerSchema.parse(answer.json());
    expect(expected.points.length).toBeGreaterThan(3);
    for (const { p10, p50, p90 } of expected.points) expect(p10 <= p50 && p50 <= p90).toBe(true);
  });

  test('a second probe cannot take the same position, and the problem points at it', async () => {
    await commit('p2', 'temperature', [[nowMs, 20]]);
    const answer = await post('/api/probes/saltmere-yard/p2/claim', { pileId: 'claimed', position: 'core' });
    expect(answer.statusCode).toBe(409);
    expect(problemSchema.parse(answer.json()).errors?.[0]?.pointer).toBe('/position');
  });

  test('a released probe is unclaimed again, and what it measured stays with the pile', async () => {
    await one.app.inject({ method: 'DELETE', url: '/api/probes/saltmere-yard/p1/claim' });
    const { probes } = probesAnswerSchema.parse((await one.app.inject({ url: '/api/probes' })).json());
    expect(probes.find(({ probe }) => probe === 'p1')?.claim).toBeNull();
    const series = seriesAnswerSchema.parse((await one.app.inject({ url: '/api/piles/claimed/series' })).json());
    expect(series.positions.core?.temperatureC?.reduce((sum, { count }) => sum + count, 0)).toBe(3);
  });

  test('GET /api/piles/:id/series refuses a range that ends before it begins', async () => {
    const answer = await one.app.inject({
      url: '/api/piles/claimed/series?from=2031-01-02T00:00:00Z&to=2031-01-01T00:00:00Z',
    });
    expect(answer.statusCode).toBe(422);
  });

  test('GET /api/piles/:id/series refuses a day that does not exist, naming it', async () => {
    const answer = await one.app.inject({ url: '/api/piles/claimed/series?from=2031-02-30T00:00:00Z' });
    expect([answer.statusCode, problemSchema.parse(answer.json()).errors?.[0]?.pointer]).toEqual([400, '/from']);
  });
});

describe('a batch that ends', () => {
  test('POST /api/piles/:id/finish leaves the pile empty, and a next batch can be laid', async () => {
    expect((await post('/api/piles/cart-shed/finish', { outcome: 'White all through.' })).json()).toMatchObject({
      batch: null,
    });
    expect((await post('/api/piles/cart-shed/finish', {})).statusCode).toBe(409);
    const next = await post('/api/piles/cart-shed/batches', { stage: 'soil' });
    expect([next.statusCode, next.json()]).toMatchObject([201, { stage: 'soil', recipe: {} }]);
    expect((await post('/api/piles/cart-shed/batches', { stage: 'soil' })).statusCode).toBe(409);
  });
});

test('GET /api/openapi.json is OpenAPI 3.1 and has the paths of piles, series and probes', async () => {
  const { openapi, paths } = (await one.app.inject({ url: '/api/openapi.json' })).json<{
    openapi: string;
    paths: object;
  }>();
  expect(openapi).toMatch(/^3\.1/);
  expect(Object.keys(paths)).toEqual(expect.arrayContaining(['/api/piles', '/api/piles/{id}/series', '/api/probes']));
});

test('GET /metrics speaks OpenMetrics text', async () => {
  const answer = await one.app.inject({ url: '/metrics' });
  expect(answer.headers['content-type']).toContain('application/openmetrics-text');
  expect(answer.body).toMatch(/branhearth_readings_stored_total \d/);
  expect(answer.body.trimEnd()).toMatch(/# EOF$/);
});
