/** What people change about a pile that has been watched for a while counts from its first reading on, not from now. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type PileDetail, pileDetailSchema } from '../../shared/contracts/piles.ts';
import { until } from '../helpers/until.ts';
import { type Farm, hourMs, openFarm, site } from './journal/farm.ts';

let farm: Farm;
const startMs = Date.now() - 40 * hourMs;

const detail = async (): Promise<PileDetail> => pileDetailSchema.parse((await farm.get('/api/piles/shed')).json());
const tenMinutely = (tempC: (hour: number) => number): [number, number][] =>
  Array.from({ length: 40 * 6 }, (_, i) => [startMs + (i * hourMs) / 6, tempC(i / 6) + 0.1 * Math.sin(i)]);
const claim = async (probe: string, position: string) =>
  expect((await farm.post(`/api/probes/${site}/${probe}/claim`, { pileId: 'shed', position })).statusCode).toBe(200);

/** Its air is watched already, and the place up to which it was judged is kept. */
beforeEach(async () => {
  farm = await openFarm();
  await farm.addPile('Shed', { startedAt: new Date(startMs).toISOString() });
  await farm.commit(
    'yard-air',
    'temperature',
    tenMinutely(() => 15),
  );
  await claim('yard-air', 'air');
  await until('a kept place', () => farm.one.installation.journal.watch.get('shed'));
});
afterEach(() => farm.close());

const warm = tenMinutely((hour) => Math.min(47, 20 + hour));

test('a probe that is claimed later is judged from its first reading in the batch', async () => {
  await farm.commit('core-1', 'temperature', warm);
  await claim('core-1', 'core');
  const { batch } = await until('the core', async () => {
    const now = await detail();
    return now.batch?.phase === 'active' ? now : undefined;
  });
  expect(batch?.heat?.places).toEqual([expect.objectContaining({ position: 'core', peakC: 47.1 })]);
  expect(batch?.progress).toBeGreaterThan(5);
});

test('a limit that is changed counts for the hours that lie behind', async () => {
  await farm.commit('core-1', 'temperature', warm);
  await claim('core-1', 'core');
  await until('the core', async () => ((await detail()).batch?.phase === 'active' ? true : undefined));
  expect((await detail()).batch?.heat?.places[0]?.lossH).toBe(0);
  expect((await farm.send('PATCH', '/api/piles/shed', { limits: { lossC: 45, actC: 44 } })).statusCode).toBe(200);
  const places = await until('the hours', async () => {
    const told = (await detail()).batch?.heat;
    return told?.lossC === 45 ? told.places : undefined;
  });
  expect(places[0]).toMatchObject({ mayBeLost: true });
  expect(places[0]?.lossH).toBeGreaterThan(13);
});
