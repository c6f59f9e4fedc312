/** Heat that passed is remembered by the built-in store and its judge, over a restart, until somebody has smelt or looked. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type PileDetail, pileDetailSchema } from '../../shared/contracts/piles.ts';
import { readinessSchema } from '../../shared/contracts/readiness.ts';
import { batchRecordSchema } from '../../shared/contracts/records.ts';
import { openTestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';
import { type Farm, hourMs, openFarm, site } from './journal/farm.ts';

let farm: Farm;
let batchId: string;
const startMs = Date.now() - 60 * hourMs;

beforeEach(async () => {
  farm = await openFarm();
  batchId = await farm.addPile('Shed', { startedAt: new Date(startMs).toISOString() });
});
afterEach(() => farm.close());

/** A probe is claimed once it has spoken. */
async function measured(readings: [number, number][]): Promise<void> {
  await farm.commit('core-1', 'temperature', readings);
  const claimed = await farm.post(`/api/probes/${site}/core-1/claim`, { pileId: 'shed', position: 'core' });
  expect(claimed.statusCode).toBe(200);
}

const detail = async (): Promise<PileDetail> => pileDetailSchema.parse((await farm.get('/api/piles/shed')).json());

/** Up to 63.4 °C, above 60 °C for about nine hours, and down to 30 °C; every ten minutes until now. */
function overheated(): [number, number][] {
  return Array.from({ length: 60 * 6 }, (_, i): [number, number] => {
    const hour = i / 6;
    const tempC =
      hour < 30
        ? 22 + hour
        : hour < 34
          ? 52 + 2.85 * (hour - 30)
          : hour < 39.3
            ? 63.4 - 0.64 * (hour - 34)
            : 60 - 3 * (hour - 39.3);
    return [startMs + hour * hourMs, Math.round(10 * Math.max(30, tempC)) / 10];
  });
}

test('a pile that was overheated says on home, in progress, readiness and record that its culture may be lost, until a smell is written down', async () => {
  await measured(overheated());
  const pile = await until('the warning', async () => {
    const now = await detail();
    return now.alarms.some(({ kind }) => kind === 'heat-damage') ? now : undefined;
  });
  expect(pile.condition).toMatch(
    /^Its culture may be lost: the core lay at 60 °C or more for \d\.\d hours, up to 63 °C\.$/,
  );
  expect(pile.batch?.heat?.places).toEqual([
    expect.objectContaining({ position: 'core', peakC: 63.4, mayBeLost: true }),
  ]);
  expect(pile.batch?.heat?.says).toContain('may be lost');
  const record = batchRecordSchema.parse((await farm.get(`/api/batches/${batchId}/record`)).json());
  expect(record.pastHeat.places).toEqual(pile.batch?.heat?.places);
  const readiness = readinessSchema.parse((await farm.get(`/api/batches/${batchId}/readiness`)).json());
  expect(readiness.signs.find(({ sign }) => sign === 'not-overheated')?.evidence).toBe('absent');
  expect(readiness.says).toContain('the heat measured speaks against it');

  await farm.one.close();
  farm.one = await openTestInstallation(farm.dataDir);
  const kept = await until('the same after a restart', async () => {
    const now = await detail();
    return now.batch?.heat ? now : undefined;
  });
  expect(kept.batch?.heat?.places).toEqual(pile.batch?.heat?.places);
  expect(kept.alarms.filter(({ kind }) => kind === 'heat-damage').map(({ id }) => id)).toEqual(
    pile.alarms.filter(({ kind }) => kind === 'heat-damage').map(({ id }) => id),
  );

  await farm.post('/api/piles/shed/entries', { what: { kind: 'smell', smells: ['earthy'] }, by: 'Ines' });
  const judged = await until('the end of it', async () => {
    const now = await detail();
    return now.alarms.some(({ kind, stands }) => kind === 'heat-damage' && stands) ? undefined : now;
  });
  expect(judged.condition).not.toContain('lost');
  expect(judged.batch?.heat?.places[0]).toMatchObject({ peakC: 63.4, mayBeLost: false });
  expect(judged.batch?.heat?.says).toContain('somebody has smelt or looked at it since');
});

interface KeptPlace {
  readonly version: string;
  readonly judge: { readonly positions: { readonly core: { readonly heat: { readonly peakC: number } } } };
}

/** The kept state with another heat at the core. */
function withHeat(kept: KeptPlace, heat: object): KeptPlace {
  const { positions } = kept.judge;
  return {
    ...kept,
    judge: { ...kept.judge, positions: { ...positions, core: { ...positions.core, heat } } },
  } as KeptPlace;
}

for (const [what, changed] of [
  [
    'by a former version of the judge',
    (kept: KeptPlace) => ({ ...withHeat(kept, { ...kept.judge.positions.core.heat, peakC: 21 }), version: '6' }),
  ],
  ['that has lost a part', (kept: KeptPlace) => withHeat(kept, {})],
] as const) {
  test(`a state kept ${what} is made anew from the readings, with the heat that passed`, async () => {
    await measured(overheated());
    await until('the warning', async () => (await detail()).alarms.find(({ kind }) => kind === 'heat-damage'));
    await farm.one.close();
    farm.one = await openTestInstallation(farm.dataDir);
    const { journal } = farm.one.installation;
    const place = await until('the kept place', () => journal.watch.get('shed'));
    const { dataDir } = farm;
    const watch = { ...place, state: changed(place.state as KeptPlace) };
    await journal.watch.keep({ alarms: [], steps: [], watch });
    await farm.one.close();
    farm.one = await openTestInstallation(dataDir);
    const anew = await until('the heat', async () => (await detail()).batch?.heat);
    expect(anew.places).toEqual([expect.objectContaining({ position: 'core', peakC: 63.4, mayBeLost: true })]);
  });
}

test('a reading that jumped stands in the API as it was measured, and as doubted', async () => {
  const steady = overheated()
    .filter((_, i) => i < 20 * 6)
    .map(([atMs, tempC]): [number, number] => [atMs + 40 * hourMs, tempC]);
  const [lastMs = 0] = steady.at(-1) ?? [];
  await measured([...steady, [lastMs + 600_000, 70]]);
  const { core } = await until('the doubt', async () => {
    const { positions } = await detail();
    return positions.core?.doubted ? positions : undefined;
  });
  expect(core).toMatchObject({ temperatureC: 70, doubted: { fromC: steady.at(-1)?.[1] } });
  expect((await detail()).condition).toMatch(
    /^The core probe reads 70 °C, a jump from \d\d °C: the next reading decides\.$/,
  );
});
