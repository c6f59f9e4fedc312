/**
 * A pile without a probe of its own has no silent probe: a part split off, one put together of others, one laid beside an air probe
 * that is long dead, and one whose probe was taken away.
 */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { openNewTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const laidMs = Date.UTC(2031, 4, 1, 6);
let nowMs = laidMs;
let one: TestInstallation;
const site = 'saltmere-yard';
const atHour = (hour: number) => laidMs + hour * msPerHour;
const instant = (hour: number) => new Date(atHour(hour)).toISOString();
const post = (url: string, payload: object) => one.app.inject({ method: 'POST', url, payload });
const pileOf = async (id: string) => (await one.app.inject(`/api/piles/${id}`)).json();

beforeAll(async () => {
  one = await openNewTestInstallation({}, { nowMs: () => nowMs, speed: 1 });
  await post('/api/sites', { name: 'Saltmere Yard' });
  const recipe = { material: 'wheat-bran', depthM: 0.3, massKg: 100 };
  await post('/api/piles', { site, stage: 'bran', startedAt: instant(0), recipe, id: 'cart-shed', name: 'Cart shed' });
  for (let minute = 0; minute < 60 * 50; minute += 20) {
    const said = { site, quantity: 'temperature' as const, atMs: laidMs + minute * msPerMinute };
    const readings = ['core', 'top', 'base', 'beside'].map((probe) => ({
      ...said,
      probe,
      value: 30 + (minute % 7) / 10,
    }));
    await commitReadings(one.installation, readings);
  }
  nowMs = atHour(50);
  for (const probe of ['core', 'top', 'base']) {
    await post(`/api/probes/${site}/${probe}/claim`, { pileId: 'cart-shed', position: probe, from: laidMs });
  }
  await post(`/api/probes/${site}/beside/claim`, { pileId: 'cart-shed', position: 'air', from: laidMs });
});
afterAll(() => one.closeAndRemove());

/** Everything is silent from hour 50; looked at long after the server has listened for a while. */
async function lookedAt(pileId: string, hour: number) {
  nowMs = Math.max(nowMs, atHour(hour));
  return until(`a look at ${pileId}`, async () => {
    const judged = await one.installation.watch.get(pileId)?.judged();
    return judged?.assessment?.atMs === nowMs ? judged.assessment : undefined;
  });
}
/** Those that stand; one that has ended may still wait to be acknowledged. */
const silentPlaces = (pile: { alarms: { kind: string; position: string; state: string }[] }) =>
  pile.alarms
    .filter(({ kind, state }) => kind === 'probe-silent' && state === 'unacknowledged')
    .map(({ position }) => position);

test('the pile whose probes fall silent is warned of; parts and a merged pile without probes say that none is there', async () => {
  await lookedAt('cart-shed', 51);
  const { batch } = await pileOf('cart-shed');
  await post(`/api/batches/${batch.id}/split`, {
    at: instant(51),
    parts: ['two', 'three'].map((n) => ({ on: { newPile: { site, id: `bay-${n}`, name: `Bay ${n}` } }, massKg: 20 })),
  });
  for (const hour of [60, 70, 470]) {
    for (const pile of ['cart-shed', 'bay-two', 'bay-three']) await lookedAt(pile, hour);
  }
  expect(silentPlaces(await pileOf('cart-shed')).sort()).toEqual(['air', 'base', 'core', 'top']);
  for (const id of ['bay-two', 'bay-three']) {
    const part = await pileOf(id);
    expect(part.alarms).toEqual([]);
    expect(part.condition).toBe('No probe is in this pile, so nobody can say how it is.');
    expect(part.next).toContain('claim it as its core');
    // The air probe of the yard serves it too and was dead before it was laid: shown as no live figure.
    expect(part.positions).toMatchObject({ air: { silent: true } });
    expect(Object.keys(part.positions)).toEqual(['air']);
  }

  const from = [];
  for (const id of ['bay-two', 'bay-three']) from.push({ batchId: (await pileOf(id)).batch.id });
  await post('/api/batches/merge', {
    from,
    stage: 'soil',
    on: { newPile: { site, id: 'long-bed', name: 'Long bed' } },
  });
  for (const hour of [480, 500]) await lookedAt('long-bed', hour);
  expect((await pileOf('long-bed')).alarms).toEqual([]);
});

test('a silent probe that is taken away is silent no more', async () => {
  for (const probe of ['core', 'top', 'base']) {
    await one.app.inject({ method: 'DELETE', url: `/api/probes/${site}/${probe}/claim` });
  }
  for (const hour of [501, 502, 510]) await lookedAt('cart-shed', hour);
  const bare = await pileOf('cart-shed');
  expect(silentPlaces(bare)).toEqual(['air']);
  expect(bare.condition).toBe('No probe is in this pile, so nobody can say how it is.');
});
