/** A temperature taken by hand: kept with its entry in journal and readings, and corrected with it. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { entrySchema } from '../../../shared/contracts/journal.ts';
import { pileDetailSchema } from '../../../shared/contracts/piles.ts';
import { StoreError } from '../../../shared/errors.ts';
import type { Position } from '../../../shared/names.ts';
import { hasInflux, startInflux } from '../../helpers/influxdb.ts';
import { openTestInstallation } from '../../helpers/open-test-server.ts';
import { hasPostgres, startPostgres } from '../../helpers/postgres.ts';
import { ago, type Farm, openFarm, site } from './farm.ts';

interface Measured {
  readonly temperatureC: number;
  readonly position?: Position;
  readonly moisturePct?: number;
}

const says = ({ position = 'core', ...shown }: Measured) => ({ kind: 'measured', position, ...shown });

const write = async (farm: Farm, pileId: string, shown: Measured, at: string, id?: string) => {
  const answer = await farm.post(`/api/piles/${pileId}/entries`, { ...(id && { id }), at, what: says(shown) });
  if (answer.statusCode >= 300) throw new Error(answer.body);
  return entrySchema.parse(answer.json());
};

/** What the readings store answers for a place of a pile, oldest first: quantity, value, time. */
async function keptOf(farm: Farm, pileId: string, position: Position = 'core') {
  const { journal, readings } = farm.one.installation;
  const claims = (await journal.claims.list()).filter(
    (claim) => claim.pileId === pileId && claim.position === position,
  );
  const series = claims.flatMap(({ site: at, probe }) =>
    (['temperature', 'moisture'] as const).map((quantity) => ({ site: at, probe, quantity })),
  );
  const rows = await readings.rows(series, 0, Date.now() + 1, 100);
  return rows.map(({ quantity, value, atMs }) => [quantity, value, new Date(atMs).toISOString()]);
}

interface Stores {
  readonly environment: Record<string, string>;
  remove(): Promise<void>;
}

const rows: [name: string, isThere: boolean, open: () => Promise<Stores>][] = [
  ['SQLite', true, async () => ({ environment: {}, remove: async () => undefined })],
  [
    'readings in InfluxDB',
    hasInflux,
    async () => {
      const influx = await startInflux();
      const { bucket } = await influx.newDatabase();
      return { environment: { READINGS_URL: influx.url, READINGS_BUCKET: bucket }, remove: () => influx.remove() };
    },
  ],
  [
    'a journal in PostgreSQL',
    hasPostgres,
    async () => {
      const postgres = await startPostgres({ fsync: 'off' });
      return { environment: { JOURNAL_URL: await postgres.database() }, remove: () => postgres.remove() };
    },
  ],
];

for (const [name, isThere, open] of rows) {
  describe.skipIf(!isThere)(`what is measured by hand, ${name}`, () => {
    let farm: Farm;
    let stores: Stores;
    beforeAll(async () => {
      stores = await open();
      farm = await openFarm(stores.environment);
    });
    afterAll(async () => {
      await farm.close();
      await stores.remove();
    });

    test('is drawn in the record as a point, and no curve is made of it', async () => {
      const batchId = await farm.addPile('drawn', { id: 'drawn', startedAt: ago(48) });
      const at = ago(5);
      await write(farm, 'drawn', { temperatureC: 41.5 }, at);
      const record = await farm.get(`/api/batches/${batchId}/record`);
      expect(record.json()).toMatchObject({
        curves: { temperatureC: [], byHand: [{ position: 'core', at, temperatureC: 41.5 }] },
      });
      const paper = await farm.get(`/api/batches/${batchId}/record.pdf`);
      expect(paper.statusCode).toBe(200);
      expect(paper.headers['content-type']).toBe('application/pdf');
    });

    test('is a reading of that place, with the moisture of a meter', async () => {
      await farm.addPile('kept', { id: 'kept', startedAt: ago(48) });
      const at = ago(5);
      const entry = await write(farm, 'kept', { temperatureC: 44.5, moisturePct: 31 }, at);
      expect(entry).toMatchObject({ what: says({ temperatureC: 44.5, moisturePct: 31 }), moistureFrac: null });
      expect(await keptOf(farm, 'kept')).toEqual(
        expect.arrayContaining([
          ['temperature', 44.5, at],
          ['moisture', 31, at],
        ]),
      );
    });

    test('sent again changes nothing; two of one minute are both kept', async () => {
      await farm.addPile('again', { id: 'again', startedAt: ago(48) });
      const at = ago(4);
      for (let times = 0; times < 3; times += 1) await write(farm, 'again', { temperatureC: 41 }, at, 'entry-0001');
      expect(await keptOf(farm, 'again')).toEqual([['temperature', 41, at]]);
      await write(farm, 'again', { temperatureC: 42 }, at, 'entry-0002');
      expect((await keptOf(farm, 'again')).map(([, value]) => value)).toEqual([41, 42]);
    });

    test('is corrected and struck out with its entry, place and time as well', async () => {
      await farm.addPile('slips', { id: 'slips', startedAt: ago(48) });
      await write(farm, 'slips', { temperatureC: 40 }, ago(9));
      const slip = await write(farm, 'slips', { temperatureC: 14 }, ago(6));
      const at = ago(5);
      const corrected = await farm.post(`/api/entries/${slip.id}/corrections`, {
        replaces: slip.versionId,
        at,
        what: says({ temperatureC: 41 }),
      });
      expect(corrected.statusCode).toBe(201);
      expect((await keptOf(farm, 'slips')).map(([, value]) => value)).toEqual([40, 41]);
      expect((await keptOf(farm, 'slips'))[1]?.[2]).toBe(at);

      const moved = entrySchema.parse(corrected.json());
      const again = entrySchema.parse(
        (
          await farm.post(`/api/entries/${slip.id}/corrections`, {
            replaces: moved.versionId,
            what: says({ temperatureC: 33, position: 'top' }),
          })
        ).json(),
      );
      expect((await keptOf(farm, 'slips')).map(([, value]) => value)).toEqual([40]);
      expect((await keptOf(farm, 'slips', 'top')).map(([, value]) => value)).toEqual([33]);

      await farm.post(`/api/entries/${slip.id}/withdrawal`, { replaces: again.versionId });
      expect(await keptOf(farm, 'slips', 'top')).toEqual([]);
    });

    test('that the readings could not take is refused, and kept in both when it comes again', async () => {
      await farm.addPile('away', { id: 'away', startedAt: ago(48) });
      const { readings } = farm.one.installation;
      const takes = readings.append.bind(readings);
      readings.append = async () => {
        throw new StoreError('Cannot keep a reading: the database is away');
      };
      const at = ago(3);
      const entry = { id: 'entry-away', at, what: says({ temperatureC: 39 }) };
      const refused = await farm.post('/api/piles/away/entries', entry);
      readings.append = takes;
      expect(refused.statusCode).toBe(503);
      expect((await farm.post('/api/piles/away/entries', entry)).statusCode).toBe(200);
      expect(await keptOf(farm, 'away')).toEqual([['temperature', 39, at]]);
    });

    test('that the readings did not get before the server died is there after its next start', async () => {
      await farm.addPile('died', { id: 'died', startedAt: ago(48) });
      const { journal } = farm.one.installation;
      const atMs = Date.parse(ago(2));
      await journal.entries.add({
        id: 'entry-died',
        entryId: 'entry-died',
        version: 1,
        pileId: 'died',
        atMs,
        recordedAtMs: atMs,
        by: null,
        note: null,
        photoIds: [],
        what: { kind: 'measured', position: 'core', temperatureC: 37 },
        reason: null,
        withdrawn: false,
      });
      expect(await keptOf(farm, 'died')).toEqual([]);
      await farm.one.close();
      farm.one = await openTestInstallation(farm.dataDir, stores.environment);
      expect((await keptOf(farm, 'died')).map(([, value]) => value)).toEqual([37]);
    });

    test('waited out of reach, and comes with others', async () => {
      await farm.addPile('queued', { id: 'queued', startedAt: ago(48) });
      const entries = [38, 41].map((temperatureC, i) => ({
        pileId: 'queued',
        entry: { id: `queued-000${i}`, at: ago(4 - i), what: says({ temperatureC }) },
      }));
      for (const outcome of ['kept', 'known']) {
        const answer = await farm.post('/api/entries', { entries });
        expect(answer.json<{ outcomes: { outcome: string }[] }>().outcomes.map((one) => one.outcome)).toEqual([
          outcome,
          outcome,
        ]);
      }
      expect((await keptOf(farm, 'queued')).map(([, value]) => value)).toEqual([38, 41]);
    });
  });
}

describe('POST /api/piles/:id/entries of what was measured', () => {
  let farm: Farm;
  beforeAll(async () => {
    farm = await openFarm();
    await farm.addPile('pile', { id: 'pile', startedAt: ago(48) });
  });
  afterAll(() => farm.close());

  const bad: [string, object, string][] = [
    ['no place', { temperatureC: 40 }, '/what/position'],
    ['a place that no pile has', { position: 'left', temperatureC: 40 }, '/what/position'],
    ['no temperature', { position: 'core' }, '/what/temperatureC'],
    [
      'a temperature that no thermometer shows of a pile',
      { position: 'core', temperatureC: 121 },
      '/what/temperatureC',
    ],
    ['more than all moisture', { position: 'core', temperatureC: 40, moisturePct: 101 }, '/what/moisturePct'],
  ];
  test.each(bad)('refuses %s', async (_what, facts, pointer) => {
    const answer = await farm.post('/api/piles/pile/entries', { what: { kind: 'measured', ...facts } });
    expect(answer.statusCode).toBe(400);
    expect(answer.json<{ errors: { pointer: string }[] }>().errors.map((one) => one.pointer)).toContain(pointer);
  });

  test('refuses a time to come, as of every entry', async () => {
    const answer = await farm.post('/api/piles/pile/entries', { at: ago(-1), what: says({ temperatureC: 40 }) });
    expect(answer.statusCode).toBe(422);
  });

  test('makes no probe: none is listed, counted or to be claimed', async () => {
    await write(farm, 'pile', { temperatureC: 40 }, ago(1));
    await farm.one.close();
    farm.one = await openTestInstallation(farm.dataDir);
    expect((await farm.get('/api/probes')).json()).toMatchObject({ probes: [], counts: { all: 0, unclaimed: 0 } });
    expect(site).toBe('saltmere-yard');
  });

  test('leaves the place to a probe, and is exported beside it', async () => {
    await write(farm, 'pile', { temperatureC: 40 }, ago(1));
    await farm.commit('core-1', 'temperature', [[Date.now() - 60_000, 41]]);
    const claimed = await farm.post(`/api/probes/${site}/core-1/claim`, { pileId: 'pile', position: 'core' });
    expect(claimed.statusCode).toBe(200);
    const batch = (await farm.get('/api/piles/pile')).json<{ batch: { id: string } }>().batch.id;
    const csv = (await farm.get(`/api/batches/${batch}/readings.csv`)).body;
    expect(csv).toMatch(/core-1,core,temperature,41/);
    expect(csv).toMatch(/hand:pile:core:1,core,temperature,40/);
  });
});

describe('a pile that has only a thermometer', () => {
  let farm: Farm;
  beforeAll(async () => {
    farm = await openFarm();
    await farm.addPile('bare', { id: 'bare', startedAt: ago(60) });
  });
  afterAll(() => farm.close());
  const pileNow = async () => pileDetailSchema.parse((await farm.get('/api/piles/bare')).json());

  test('is asked to be measured, judged once it is, and told when to measure next', async () => {
    expect((await pileNow()).measureNext).toMatchObject({ position: 'core', reason: 'never-measured' });
    await write(farm, 'bare', { temperatureC: 24 }, ago(50));
    await write(farm, 'bare', { temperatureC: 38 }, ago(12));
    const entry = await write(farm, 'bare', { temperatureC: 44 }, ago(0.2));
    const pile = await pileNow();
    expect(pile.positions.core).toMatchObject({ temperatureC: 44, silent: false, byHand: { temperatureC: 44 } });
    expect(pile.positions.core?.probe).toBeUndefined();
    expect(pile.condition).toMatch(/the core was at 44 °C/);
    expect(pile.measureNext).toMatchObject({ reason: 'climbing', messages: { says: { code: 'measure.climbing' } } });
    expect(pile.evidence.filter(({ kind, evidence }) => kind === 'probe-silent' && evidence === 'present')).toEqual([]);

    await farm.post(`/api/entries/${entry.id}/corrections`, {
      replaces: entry.versionId,
      what: says({ temperatureC: 61 }),
    });
    expect((await pileNow()).alarms.map(({ kind }) => kind)).toContain('overheating');
  });
});
