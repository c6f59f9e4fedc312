/** A probe and a thermometer of the same place: their difference is shown, and taken over as the probe's offset once. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type PileDetail, pileDetailSchema } from '../../shared/contracts/piles.ts';
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import { until } from '../helpers/until.ts';
import { type Farm, openFarm, site } from './journal/farm.ts';

let farm: Farm;
const nowMs = Date.now();
const at = (minutesAgo: number) => new Date(nowMs - minutesAgo * msPerMinute).toISOString();

beforeAll(async () => {
  farm = await openFarm();
  await farm.addPile('Cart shed', { startedAt: at(30 * 60) });
  const readings = Array.from({ length: 29 * 6 }, (_, i): [number, number] => [
    nowMs - 29 * msPerHour + i * 10 * msPerMinute,
    41 + 0.0625 * (i % 3),
  ]);
  await farm.commit('p1', 'temperature', readings);
  await farm.post(`/api/probes/${site}/p1/claim`, { pileId: 'cart-shed', position: 'core' });
});
afterAll(() => farm.close());

const detail = async (): Promise<PileDetail> => pileDetailSchema.parse((await farm.get('/api/piles/cart-shed')).json());
const measured = (temperatureC: number, minutesAgo: number) =>
  farm.post('/api/piles/cart-shed/entries', {
    at: at(minutesAgo),
    what: { kind: 'measured', position: 'core', temperatureC },
  });
const differences = (count: number) =>
  until(`${count} differences`, async () => {
    const { handDifferences = [] } = await detail();
    return handDifferences.length === count ? handDifferences : undefined;
  });
const take = (ofAt: string) => farm.post('/api/piles/cart-shed/probe-offset', { position: 'core', at: ofAt });

test('where they agree nothing is said', async () => {
  await measured(41.3, 90);
  await until('the measurement', async () =>
    (await farm.one.installation.watch.get('cart-shed')?.judged())?.assessment?.measuredByHand[0] ? true : undefined,
  );
  expect((await detail()).handDifferences).toEqual([]);
});

test('where they differ it says by how much, and which offset the probe would have', async () => {
  await farm.send('PUT', `/api/probes/${site}/p1/calibration`, { temperatureOffsetC: 0.5 });
  await measured(43.6, 60);
  const [one] = await differences(1);
  expect(one).toMatchObject({ position: 'core', probe: 'p1', site, at: at(60), handC: 43.6 });
  expect(one?.differenceK).toBeCloseTo(43.6 - (one?.probeC ?? 0), 0);
  expect(one?.offsetC).toBeCloseTo(0.5 + (one?.differenceK ?? 0), 5);
});

test('taken over it is the offset of the probe, counts from then on, and is offered no more', async () => {
  const [one] = await differences(1);
  expect((await take(at(61))).statusCode).toBe(409);
  const taken = await take(at(60));
  expect([taken.statusCode, taken.json().temperatureOffsetC]).toEqual([200, one?.offsetC]);
  await differences(0);
  expect((await take(at(60))).statusCode).toBe(409);
  const kept = (await farm.one.installation.journal.probes.list()).find(({ probe }) => probe === 'p1');
  expect(kept?.temperatureOffsetC).toBe(one?.offsetC);
  const [trail] = await farm.one.installation.journal.audit.list({ limit: 1 });
  expect(trail).toMatchObject({ what: { code: 'audit.did.calibrated-probe-by-thermometer' }, subject: `${site}/p1` });
});

test('a later measurement is compared anew', async () => {
  await measured(39.9, 30);
  const [one] = await differences(1);
  expect(one?.at).toBe(at(30));
});

test('a probe that is further off than an offset may be is not put right: it is to be changed', async () => {
  await measured(70, 20);
  await until('it was compared', async () =>
    (await farm.one.installation.watch.get('cart-shed')?.judged())?.assessment?.measuredByHand[0]?.tempC === 70
      ? true
      : undefined,
  );
  expect((await detail()).handDifferences).toEqual([]);
});
