/**
 * When the server works an expected curve out anew: at once after an act, within the hour when the weather departs.
 */
import { afterAll, afterEach, beforeAll, expect, test, vi } from 'vitest';
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { bandsAtOnce, openNewTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const laidMs = Date.UTC(2031, 4, 1, 6);
let nowMs = laidMs;
let one: TestInstallation;
const asked = vi.spyOn(bandsAtOnce, 'compute');

beforeAll(async () => {
  one = await openNewTestInstallation({}, { nowMs: () => nowMs, speed: 1 });
  await post('/api/sites', { name: 'Saltmere Yard' });
  await post('/api/piles', {
    site: 'saltmere-yard',
    name: 'Cart shed',
    stage: 'bran',
    startedAt: new Date(laidMs).toISOString(),
  });
  await measure(0, 1, 18);
  await post('/api/probes/saltmere-yard/core/claim', { pileId: 'cart-shed', position: 'core' });
  await post('/api/probes/saltmere-yard/beside/claim', { pileId: 'cart-shed', position: 'air' });
});
afterEach(() => asked.mockClear());
afterAll(() => one.closeAndRemove());

const post = (url: string, payload: object) => one.app.inject({ method: 'POST', url, payload });

/** Core and air every ten minutes of these hours, committed and told; it is then the end of them. */
async function measure(fromHour: number, toHour: number, airC: number) {
  for (let minute = 60 * fromHour; minute < 60 * toHour; minute += 10) {
    const atMs = laidMs + minute * msPerMinute;
    const said = { site: 'saltmere-yard', quantity: 'temperature' as const, atMs };
    const readings = [
      { ...said, probe: 'core', value: 24 + minute / 600 },
      { ...said, probe: 'beside', value: airC },
    ];
    await commitReadings(one.installation, readings);
  }
  nowMs = laidMs + toHour * msPerHour;
}

/** Waits until the server has looked at the pile as it is now. */
const looked = () =>
  until('a look at the pile', async () => {
    const judged = await one.installation.watch.get('cart-shed')?.judged();
    return judged?.assessment?.atMs === nowMs ? true : undefined;
  });

test('an act asks for a new expected curve at once, and the curve knows of it', async () => {
  await looked();
  asked.mockClear();
  const done = await post('/api/piles/cart-shed/acts', { kind: 'turned' });
  expect(done.statusCode).toBe(201);
  expect(asked).toHaveBeenCalledOnce();
  expect(asked.mock.lastCall?.[0].setup.acts.map(({ kind }) => kind)).toEqual(['turned']);
});

test('air as it was taken to be asks for no new curve before three hours are over', async () => {
  await measure(1, 2.5, 18);
  await looked();
  expect(asked).not.toHaveBeenCalled();
});

test('air that departs from what the curve took it to be asks for a new one, once', async () => {
  await measure(2.5, 4.2, 18);
  await until('the regular curve', () => (asked.mock.calls.length > 0 ? true : undefined));
  asked.mockClear();
  await measure(4.2, 6.2, 27);
  await until('a curve for the warm air', () => (asked.mock.calls.length > 0 ? true : undefined));
  expect(asked.mock.lastCall?.[0].air.at(-1)?.tempC).toBeCloseTo(27, 1);
  nowMs += 10 * msPerMinute;
  await looked();
  expect(asked).toHaveBeenCalledOnce();
});
