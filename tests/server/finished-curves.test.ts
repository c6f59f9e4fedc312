import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Clock } from '../../shared/clock.ts';
import { seriesAnswerSchema } from '../../shared/contracts/series.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { openNewTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;
const firstMs = Date.UTC(2031, 3, 1);
let nowMs = firstMs + 60 * dayMs;
const clock: Clock = { nowMs: () => nowMs, speed: 1 };
let one: TestInstallation;

beforeAll(async () => {
  one = await openNewTestInstallation({}, clock);
});
afterAll(() => one.closeAndRemove());

async function post(url: string, payload: object) {
  const answer = await one.app.inject({ method: 'POST', url, payload });
  if (answer.statusCode >= 300) throw new Error(`${url}: ${answer.body}`);
}

const origin = async () =>
  seriesAnswerSchema.parse((await one.app.inject({ url: '/api/piles/bed/series' })).json()).expected.origin;

test('three finished batches of the stage join the expected band, two do not', async () => {
  await post('/api/sites', { name: 'Saltmere Yard' });
  await post('/api/piles', { site: 'saltmere-yard', id: 'bed', name: 'Bed', stage: 'bran', startedAt: firstMs });
  const readings = Array.from({ length: 40 * 24 }, (_, hour) => ({
    site: 'saltmere-yard',
    probe: 'p1',
    quantity: 'temperature' as const,
    atMs: firstMs + hour * hourMs,
    value: 20 + 22 * Math.exp(-((((hour % 192) - 60) / 40) ** 2)),
  }));
  await commitReadings(one.installation, readings);
  await post('/api/probes/saltmere-yard/p1/claim', { pileId: 'bed', position: 'core', from: firstMs });

  const origins: string[] = [];
  for (let batch = 0; batch < 3; batch++) {
    await post('/api/piles/bed/finish', { at: firstMs + (batch * 8 + 7) * dayMs });
    await post('/api/piles/bed/batches', { stage: 'bran', startedAt: firstMs + (batch + 1) * 8 * dayMs });
    nowMs += 4 * hourMs;
    origins.push(
      await until(
        'a band',
        async () => {
          const now = await origin();
          return now === 'not computed yet' || now === origins.at(-1) ? undefined : now;
        },
        3_000,
      ).catch(() => origin()),
    );
  }
  expect(origins[1]).not.toContain('finished batches');
  expect(origins[2]).toContain('3 finished batches of your own');
});

test('the band is shown from the model, from the own batches, or from both', async () => {
  const expected = async (source: string) =>
    seriesAnswerSchema.parse((await one.app.inject({ url: `/api/piles/bed/series?expected=${source}` })).json())
      .expected;
  const [model, own, both] = [await expected('model'), await expected('own'), await expected('both')];
  expect(model.origin).not.toContain('of your own');
  expect(own.origin).toMatch(/^from 3 finished batches of your own/);
  expect([model.ownBatches, own.ownBatches, both.ownBatches]).toEqual([3, 3, 3]);
  expect(own.points.length).toBeGreaterThan(24);
  for (const { at, p50 } of own.points.slice(0, 48)) {
    const between = [p50, model.points.find((point) => point.at === at)?.p50 ?? Number.NaN].sort((a, b) => a - b);
    const blended = both.points.find((point) => point.at === at)?.p50 ?? Number.NaN;
    expect(blended).toBeGreaterThanOrEqual((between[0] ?? 0) - 0.002);
    expect(blended).toBeLessThanOrEqual((between[1] ?? 0) + 0.002);
  }
});

test('a batch judged poor does not speak in the expected band, until it is judged better', async () => {
  const { batches } = (await one.app.inject({ url: '/api/batches' })).json<{
    batches: { id: string; endedAt: string | null }[];
  }>();
  const batchId = batches.find(({ endedAt }) => endedAt !== null)?.id;
  const judge = (verdict: string, why: string) =>
    post('/api/piles/bed/entries', { at: nowMs, what: { kind: 'verdict', batchId, verdict, why } });
  const speaking = (want: boolean) =>
    until(
      `own batches speak: ${want}`,
      async () => (await origin()).includes('finished batches') === want || undefined,
    );
  await speaking(true);
  await judge('poor', 'too-cool');
  await speaking(false);
  nowMs += 60_000;
  await judge('good', 'kept-warm');
  await speaking(true);
});

test('a batch that a person found bad does not speak in the expected band', async () => {
  await post('/api/piles/bed/entries', {
    at: firstMs + 6 * dayMs,
    what: { kind: 'readiness', smell: 'bad', look: 'doubtful', ready: false },
  });
  const now = await until('a band without it', async () => {
    const shown = await origin();
    return shown.includes('finished batches') ? undefined : shown;
  });
  expect(now).toContain('worked out');
});
