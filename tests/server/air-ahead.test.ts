/** Tomorrow's air: posted or published, kept, reckoned with by the expected band and the forecast, and shown with its age. */
import { connectAsync } from 'mqtt';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type PileDetail, pileDetailSchema } from '../../shared/contracts/piles.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';
import { type CartShed, openCartShed } from '../helpers/cart-shed.ts';
import type { TestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const laidMs = Date.UTC(2031, 4, 1, 6);
let nowMs = laidMs + 2 * msPerDay;
let shed: CartShed;
let one: TestInstallation;

beforeAll(async () => {
  const recipe = { material: 'wheat-bran', depthM: 0.15, cover: 'breathable' };
  shed = await openCartShed(laidMs, () => nowMs, recipe);
  ({ one } = shed);
  for (let atMs = laidMs; atMs < nowMs; atMs += msPerHour) await shed.measure(atMs, 30, 20);
  await shed.claimProbes();
});
afterAll(() => one.closeAndRemove());

const post: CartShed['post'] = (url, payload) => shed.post(url, payload);
const issue = (temperatureC: number, hours = 72) => ({
  source: 'the yard mast',
  issuedAt: toInstant(nowMs),
  points: Array.from({ length: hours + 1 }, (_, hour) => ({ at: toInstant(nowMs + hour * msPerHour), temperatureC })),
});
const detail = async (): Promise<PileDetail> =>
  pileDetailSchema.parse((await one.app.inject('/api/piles/cart-shed')).json());
/** The air that the pile's band was worked out with, so many hours from now [°C]. */
const bandAirC = async (hoursAhead: number) => {
  const { band } = (await one.installation.watch.get('cart-shed')?.judged()) ?? {};
  return band?.airC?.[Math.round((nowMs - laidMs) / msPerHour) + hoursAhead] ?? Number.NaN;
};
const refusalsOf = (reason: string) =>
  one.installation.ingest.refusals().refusals.find((refusal) => refusal.reason === reason)?.count ?? 0;

test('without any, the band repeats the day before and the pile says nothing of it', async () => {
  await until('a band', async () => (Number.isNaN(await bandAirC(10)) ? undefined : true));
  expect(await bandAirC(10)).toBeCloseTo(20, 0);
  expect((await detail()).airAhead).toBeUndefined();
});

test('what is posted is reckoned with at once, and said with whose it is, until when and since when', async () => {
  const kept = await post('/api/sites/saltmere-yard/air-ahead', issue(6));
  expect([kept.statusCode, kept.json()]).toEqual([
    200,
    { kept: true, source: 'the yard mast', issuedAt: toInstant(nowMs), until: toInstant(nowMs + 72 * msPerHour) },
  ]);
  await until('colder air in the band', async () => ((await bandAirC(10)) < 8 ? true : undefined));
  expect((await detail()).airAhead).toEqual({
    source: 'the yard mast',
    issuedAt: toInstant(nowMs),
    until: toInstant(nowMs + 48 * msPerHour), // as far as the band reaches
  });
  expect(await bandAirC(-10)).toBeCloseTo(20, 0); // what was measured stays
});

test('an issue that is older than what is kept changes nothing', async () => {
  const older = { ...issue(30), issuedAt: toInstant(nowMs - msPerHour) };
  expect((await post('/api/sites/saltmere-yard/air-ahead', older)).json()).toMatchObject({ kept: false });
  expect((await one.installation.journal.airAhead.get('saltmere-yard'))?.points[5]?.tempC).toBe(6);
});

test('posted nonsense is refused with a pointer; an unknown site is not found', async () => {
  const gone = await post('/api/sites/saltmere-yard/air-ahead', {
    points: [-3, -2].map((hour) => ({ at: toInstant(nowMs + hour * msPerHour), temperatureC: 9 })),
  });
  expect([gone.statusCode, gone.json().errors]).toMatchObject([422, [{ pointer: '/points/1/at' }]]);
  const hot = await post('/api/sites/saltmere-yard/air-ahead', issue(68));
  expect([hot.statusCode, hot.json().errors[0].pointer]).toEqual([400, '/points/0/temperatureC']);
  expect((await post('/api/sites/nowhere/air-ahead', issue(9))).statusCode).toBe(404);
});

test('what is published on the topic of the site does the same; nonsense and unknown sites are counted', async () => {
  nowMs += msPerHour;
  const client = await connectAsync(one.installation.ingest.url);
  const say = (site: string, payload: unknown) =>
    client.publishAsync(`piles/${site}/air-ahead`, JSON.stringify(payload), { qos: 1, retain: true });
  await say('saltmere-yard', issue(26));
  await until('warmer air in the band', async () => ((await bandAirC(10)) > 20 ? true : undefined));
  await say('saltmere-yard', { points: 'sunny' });
  await say('nowhere', issue(9));
  await until('both refused', () =>
    refusalsOf('wrong-type') === 1 && refusalsOf('unknown-site') === 1 ? true : undefined,
  );
  await client.endAsync();
});

test('once it is stale, the band goes on by the day before and the pile says nothing of it', async () => {
  nowMs += 2 * msPerDay + msPerHour;
  await until('a band without it', async () => ((await detail()).airAhead === undefined ? true : undefined));
});
