/**
 * A part that was split off is judged on from where the whole was laid: it has been through its heat, and knows it.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { openNewTestInstallation, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const laidMs = Date.UTC(2031, 4, 1, 6);
let nowMs = laidMs;
let one: TestInstallation;
const instant = (hour: number) => new Date(laidMs + hour * msPerHour).toISOString();
const post = (url: string, payload: object) => one.app.inject({ method: 'POST', url, payload });

/** Warms in a day and a half, works two days, and cools. */
const coreC = (hour: number) =>
  hour < 36 ? 20 + (22 * hour) / 36 : hour < 84 ? 42 : Math.max(24, 42 - (hour - 84) / 2);

beforeAll(async () => {
  one = await openNewTestInstallation({}, { nowMs: () => nowMs, speed: 1 });
  await post('/api/sites', { name: 'Saltmere Yard' });
  const recipe = { material: 'wheat-bran', depthM: 0.3, massKg: 100, moistureFrac: 0.6, cover: 'breathable' };
  const yard = { site: 'saltmere-yard', stage: 'bran', startedAt: instant(0), recipe };
  await post('/api/piles', { ...yard, id: 'cart-shed', name: 'Cart shed' });
  await measure(0, 100, 'core');
  for (const [probe, position] of [
    ['core', 'core'],
    ['beside', 'air'],
  ]) {
    await post(`/api/probes/saltmere-yard/${probe}/claim`, { pileId: 'cart-shed', position, from: laidMs });
  }
});
afterAll(() => one.closeAndRemove());

/** A core and the air every twenty minutes of these hours, committed and told; it is then the end of them. */
async function measure(fromHour: number, toHour: number, ...cores: string[]) {
  for (let minute = 60 * fromHour; minute < 60 * toHour; minute += 20) {
    const atMs = laidMs + minute * msPerMinute;
    const said = { site: 'saltmere-yard', quantity: 'temperature' as const, atMs };
    const wobbleK = 0.05 * Math.sin(minute);
    const readings = [
      ...cores.map((probe) => ({ ...said, probe, value: coreC(minute / 60) + wobbleK })),
      { ...said, probe: 'beside', value: 19 + wobbleK },
    ];
    await commitReadings(one.installation, readings);
  }
  nowMs = laidMs + toHour * msPerHour;
}

const lookedAt = (pileId: string) =>
  until(`a look at ${pileId}`, async () => {
    const judged = await one.installation.watch.get(pileId)?.judged();
    return judged?.assessment?.atMs === nowMs ? judged.assessment : undefined;
  });

test('a part split off a cooling bed goes on cooling with the whole of its progress, also after a restart', async () => {
  const whole = await lookedAt('cart-shed');
  expect(whole.phase).toBe('cooling');
  const batchId = (await one.app.inject('/api/piles/cart-shed')).json().batch.id;
  const split = await post(`/api/batches/${batchId}/split`, {
    at: instant(100),
    parts: [
      {
        on: { newPile: { site: 'saltmere-yard', id: 'bay-two', name: 'Bay two' } },
        massKg: 30,
        recipe: { depthM: 0.2 },
      },
    ],
  });
  expect(split.statusCode).toBeLessThan(300);
  await measure(100, 104, 'core', 'core-two');
  await post('/api/probes/saltmere-yard/core-two/claim', {
    pileId: 'bay-two',
    position: 'core',
    from: laidMs + 100 * msPerHour,
  });
  const part = await lookedAt('bay-two');
  expect([part.phase, part.progressPct]).toEqual(['cooling', expect.closeTo(whole.progressPct, -1)]);
  expect(part.readiness.points.find(({ what }) => what === 'heat-came')?.seen).toBe(true);
  // What it is shown is its own: the probe of the whole is none of its places.
  expect(one.installation.watch.get('bay-two')?.sources.map(({ claim }) => claim.probe)).toEqual([
    'core-two',
    'beside',
  ]);

  const dataDir = one.dataDir;
  await one.close();
  one = await openTestInstallation(dataDir, {}, { nowMs: () => nowMs, speed: 1 });
  const again = await lookedAt('bay-two');
  expect([again.phase, again.progressPct]).toEqual([part.phase, part.progressPct]);
});
