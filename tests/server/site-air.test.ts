/** Where the air of a pile without an air probe comes from, as its page says it. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { pileDetailSchema } from '../../shared/contracts/piles.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { until } from '../helpers/until.ts';
import { type NotifyFarm, openNotifyFarm } from './notify/farm.ts';

const hourMs = 3_600_000;
const site = 'saltmere-yard';

let farm: NotifyFarm;
beforeEach(async () => {
  farm = await openNotifyFarm({});
});
afterEach(() => farm.close());

const detail = async () => pileDetailSchema.parse((await farm.one.app.inject({ url: '/api/piles/shed' })).json());
const measureAir = (value: number) =>
  commitReadings(farm.one.installation, [
    { site, probe: 'shade', quantity: 'temperature', value, atMs: farm.nowMs },
    { site, probe: 'p1', quantity: 'temperature', value: 24, atMs: farm.nowMs },
  ]);
const foretell = () =>
  farm.post(`/api/sites/${site}/air-ahead`, {
    source: 'the yard’s mast',
    points: [0, 1, 2, 3, 4, 5, 6, 7, 8].map((hour) => ({
      at: (farm.nowMs + hour * hourMs) / 1000,
      temperatureC: 10 + hour,
    })),
  });

test('the air of a pile is that of a neighbour’s probe while it speaks, else as foretold, and never as if measured here', async () => {
  expect((await detail()).siteAir).toBeUndefined();
  const issuedAt = new Date(farm.nowMs).toISOString();
  await foretell();
  farm.nowMs += 0.5 * hourMs;
  await farm.measure(24);
  expect(await detail()).toMatchObject({
    siteAir: { temperatureC: 10.5, doubtK: 5, source: 'the yard’s mast', issuedAt },
  });
  expect((await detail()).positions.air).toBeUndefined();

  await farm.post('/api/piles', { id: 'barn', site, name: 'Barn', stage: 'bran' });
  await measureAir(12);
  await farm.post(`/api/probes/${site}/shade/claim`, { pileId: 'barn', position: 'air' });
  // Often enough that its rhythm is known.
  for (let step = 0; step < 6; step += 1) {
    farm.nowMs += hourMs / 6;
    await measureAir(12.5);
  }
  const there = await until('it goes by it', async () => {
    const { positions, siteAir } = await detail();
    return positions.air?.silent === false && siteAir === undefined ? positions.air : undefined;
  });
  expect(there).toMatchObject({ probe: 'shade', ofPile: 'barn', temperatureC: 12.5 });
  expect((await detail()).positions.core?.ofPile).toBeUndefined();
  const barn = pileDetailSchema.parse((await farm.one.app.inject({ url: '/api/piles/barn' })).json());
  expect(barn.positions.air?.ofPile).toBeUndefined();

  await foretell();
  // Only the core speaks on.
  for (let step = 0; step < 7 * 6; step += 1) {
    farm.nowMs += hourMs / 6;
    await farm.measure(24);
  }
  const silent = await until('it is silent', async () => {
    const now = await detail();
    return now.positions.air?.silent && now.siteAir ? now : undefined;
  });
  expect(silent.siteAir?.temperatureC).toBeCloseTo(17, 1);

  await measureAir(13);
  await until('it speaks again', async () => {
    const { positions, siteAir } = await detail();
    return positions.air?.silent === false && siteAir === undefined ? true : undefined;
  });

  // To the last hour foretold, and beyond.
  for (let step = 0; step < 9 * 6; step += 1) {
    farm.nowMs += hourMs / 6;
    await farm.measure(24);
  }
  const beyond = await until('nothing reaches so far', async () => {
    const now = await detail();
    return now.positions.air?.silent ? now : undefined;
  });
  expect(beyond.siteAir).toBeUndefined();
});

test('where a neighbour’s air probe falls silent another neighbour’s takes over, and the page’s facts say whose', async () => {
  await foretell();
  for (const [id, name, probe] of [
    ['barn', 'Barn', 'shade'],
    ['byre', 'Byre', 'lee'],
  ] as const) {
    farm.nowMs += 60_000; // the first that was claimed is gone by
    await farm.post('/api/piles', { id, site, name, stage: 'bran' });
    await commitReadings(farm.one.installation, [
      { site, probe, quantity: 'temperature', value: 12, atMs: farm.nowMs },
    ]);
    await farm.post(`/api/probes/${site}/${probe}/claim`, { pileId: id, position: 'air' });
  }
  const tick = async (speaking: readonly string[]) => {
    farm.nowMs += hourMs / 6;
    const { nowMs: atMs } = farm;
    const values = { p1: 24, shade: 12.5, lee: 14 } as const;
    await commitReadings(
      farm.one.installation,
      (['p1', 'shade', 'lee'] as const)
        .filter((probe) => speaking.includes(probe))
        .map((probe) => ({ site, probe, quantity: 'temperature' as const, value: values[probe], atMs })),
    );
  };
  for (let step = 0; step < 12; step += 1) await tick(['p1', 'shade', 'lee']);
  const first = await until('it goes by the first', async () => {
    const now = await detail();
    return now.positions.air?.silent === false ? now : undefined;
  });
  expect(first).toMatchObject({ positions: { air: { probe: 'shade', ofPile: 'barn' } } });
  expect(first.neighbourAir).toBeUndefined();

  for (let step = 0; step < 4 * 6; step += 1) await tick(['p1', 'lee']);
  const second = await until('the second takes over', async () => {
    const now = await detail();
    return now.neighbourAir ? now : undefined;
  });
  expect(second.neighbourAir).toMatchObject({ pileId: 'byre', probe: 'lee', temperatureC: 14 });
  expect(second.siteAir).toBeUndefined();
  expect(second.positions.air).toMatchObject({ probe: 'shade', silent: true });

  // A restart judges on, or anew, to the same.
  await farm.reopen();
  const again = await until('it is judged again', async () => {
    const now = await detail();
    return now.neighbourAir ? now : undefined;
  });
  expect(again.neighbourAir).toEqual(second.neighbourAir);

  await foretell();
  for (let step = 0; step < 3 * 6; step += 1) await tick(['p1']);
  const weather = await until('both are silent', async () => {
    const now = await detail();
    return now.siteAir ? now : undefined;
  });
  expect(weather.neighbourAir).toBeUndefined();
  expect(weather.siteAir?.source).toBe('the yard’s mast');
});
