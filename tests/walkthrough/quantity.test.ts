/** The walk-through "Add a quantity" of DEVELOPERS.md, followed to the letter in a copy of the sources. */
import { type FunctionComponent, h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { afterAll, expect, test } from 'vitest';
import type { PileDetail } from '../../shared/contracts/piles.ts';
import type { ProbesAnswer } from '../../shared/contracts/probes.ts';
import type { SeriesAnswer } from '../../shared/contracts/series.ts';
import { plainReader } from '../../shared/messages/format.ts';
import { pageImportTexts } from '../../shared/messages/made/en/page-import.ts';
import type { Quantity } from '../../shared/quantity.ts';
import { pageWords } from '../../web/src/data/live/page-texts.ts';
import { setupOf } from '../core/helpers.ts';
import type { Farm } from '../server/journal/farm.ts';
import { copySources } from './copy-of-sources.ts';

const copy = copySources('Add a quantity');
const [declaration = '', texts = ''] = copy.steps;
let farm: Farm | undefined;
afterAll(async () => {
  await farm?.close();
  copy.remove();
});

const refusedFiles = () =>
  copy.refusedFiles([
    'web/src/ui/format/quantity-words.ts',
    'web/src/charts/chart-data.ts',
    'core/estimate/position.ts',
    'core/session/judge.ts',
    'server/services/import/heading-words.ts',
    'server/services/probes/probe-book.ts',
    'server/services/views/pile-summary.ts',
  ]);

test('a quantity that is only declared does not compile where its texts are shown', () => {
  copy.change('shared/quantities/quantities.ts', (text) => text.replace('  battery: {', `${declaration}$&`));
  expect(refusedFiles()).toEqual(['web/src/ui/format/quantity-words.ts']);
});

test('with its texts it compiles, and one file was touched', () => {
  copy.giveTexts(texts);
  expect(refusedFiles()).toEqual([]);
  expect(copy.touched).toEqual(['shared/quantities/quantities.ts']);
});

type Decode = typeof import('../../ingest/decode/decode-payload.ts');
/** TypeScript knows the sources as they are, without what is made up. */
const oxygen = 'oxygen' as Quantity;

const atMs = Math.floor(Date.now() / 60_000) * 60_000 - 3_600_000;
const arrival = { nowMs: atMs, retained: false };
const probe = { site: 'saltmere-yard', probe: 'p1' };
const reading = (value: number) => ({ ...probe, quantity: 'oxygen', value, atMs });

test('ingest reads it from JSON, from SenML in each of its units, and as a bare number', async () => {
  const { decodeReading, decodeNumber } = await copy.load<Decode>('ingest/decode/decode-payload.ts');
  const { readTopic } = await copy.load<typeof import('../../ingest/decode/topic.ts')>('ingest/decode/topic.ts');
  const read = (text: string) => decodeReading(text, probe, arrival);
  expect(read('{"oxygen": 19.4}').readings).toEqual([reading(19.4)]);
  expect(read('[{"n": "oxygen", "u": "%", "v": 19.4}]').readings).toEqual([reading(19.4)]);
  expect(read('[{"n": "urn:dev:ow:10e2:oxygen", "u": "/", "v": 0.194}]').readings).toEqual([reading(19.4)]);
  expect(read('[{"n": "oxygen", "u": "ppm", "v": 194000}]').readings).toEqual([reading(19.4)]);
  expect(readTopic('farm', 'farm/saltmere-yard/p1/oxygen')).toEqual({ kind: 'value', probe, quantity: 'oxygen' });
  expect(decodeNumber('19.4', probe, oxygen, arrival).readings).toEqual([reading(19.4)]);

  expect(read('{"oxygen": 101}').refusals.map(({ reason }) => reason)).toEqual(['out-of-range']);
  expect(read('[{"n": "oxygen", "u": "Cel", "v": 19.4}]').refusals.map(({ reason }) => reason)).toEqual([
    'unknown-unit',
  ]);
});

test('the judge remembers it of a position', async () => {
  const { stepJudge, startJudge, assess } =
    await copy.load<typeof import('../../core/session/judge.ts')>('core/session/judge.ts');
  const setup = setupOf('bran', { startedAtMs: atMs });
  const state = startJudge(setup);
  stepJudge(state, setup, null, { position: 'core', quantity: oxygen, value: 19.4, atMs });
  expect(assess(state, setup, null, atMs).positions.core).toMatchObject({ oxygenPct: 19.4 });
});

const server = (): Farm => {
  if (farm === undefined) throw new Error('the server did not start');
  return farm;
};
const hoursAgo = (hours: number) => new Date(atMs - hours * 3_600_000).toISOString();

test('a file is read for it, by its name and in its units', async () => {
  const { openFarm, site } =
    await copy.load<typeof import('../server/journal/farm.ts')>('tests/server/journal/farm.ts');
  farm = await openFarm();
  await farm.addPile('Shed', { id: 'shed', startedAt: hoursAgo(9) });
  const csv = `Time,O2 (%),Oxygen ppm\n${hoursAgo(3)},17.5,\n${hoursAgo(2)},,182000\n`;
  const ask = { kind: 'readings', site, probe: 'p1', csv };
  const shown = (await farm.post('/api/import/preview', ask)).json<{ digest: string; columns: { says: string }[] }>();
  expect(shown.columns.map(({ says }) => says)).toEqual([
    'when',
    'oxygen of the probe p1, in %',
    'oxygen of the probe p1, in ppm',
  ]);
  const done = await farm.post('/api/import/commit', { ...ask, digest: shown.digest });
  expect(done.json()).toMatchObject({ kept: 2, refused: 0 });
  await farm.post(`/api/probes/${site}/p1/claim`, { pileId: 'shed', position: 'core', from: hoursAgo(9) });
});

test('the API has it of the pile, of the probe and over time, as its description says', {
  timeout: 120_000,
}, async () => {
  const farm = server();
  await farm.commit('p1', oxygen, [[atMs, 19.4]]);
  const { pileDetailSchema } =
    await copy.load<typeof import('../../shared/contracts/piles.ts')>('shared/contracts/piles.ts');
  const { probesAnswerSchema } =
    await copy.load<typeof import('../../shared/contracts/probes.ts')>('shared/contracts/probes.ts');
  const { seriesAnswerSchema } =
    await copy.load<typeof import('../../shared/contracts/series.ts')>('shared/contracts/series.ts');
  const pile = pileDetailSchema.parse((await farm.get('/api/piles/shed')).json());
  expect(pile.positions.core).toMatchObject({ oxygenPct: 19.4 });
  const [known] = probesAnswerSchema.parse((await farm.get('/api/probes')).json()).probes;
  expect(known?.last).toEqual({ oxygenPct: 19.4 });
  const from = encodeURIComponent(hoursAgo(9));
  const series = seriesAnswerSchema.parse((await farm.get(`/api/piles/shed/series?from=${from}`)).json());
  const buckets = (series.positions.core as Record<string, { mean: number }[]> | undefined)?.oxygenPct;
  expect(buckets?.map(({ mean }) => mean)).toEqual([17.5, 18.2, 19.4]);
  expect((await farm.get('/api/openapi.json')).body).toContain('oxygenPct');
});

test('the record of the batch, taken out as a file, has each reading with its unit', async () => {
  const { batch } = (await server().get('/api/piles/shed')).json<{ batch: { id: string } }>();
  const csv = (await server().get(`/api/batches/${batch.id}/readings.csv`)).body;
  expect(csv.split('\r\n').filter((line) => /,oxygen,/.test(line))).toHaveLength(3);
  expect(csv).toMatch(/,oxygen,19\.4,%/);
});

test('pages show it: with its pile, with its probe, in the table, as a chart and where values are mapped and imported', async () => {
  const { positions } = (await server().get('/api/piles/shed')).json<PileDetail>();
  const mound = await copy.load<typeof import('../../web/src/ui/mound/mound-facts.ts')>(
    'web/src/ui/mound/mound-facts.ts',
  );
  expect(positions.core && mound.otherReadings(positions.core)).toEqual(['oxygen 19.4\u00a0%']);

  const facts = await copy.load<typeof import('../../web/src/features/probes/probe-facts.ts')>(
    'web/src/features/probes/probe-facts.ts',
  );
  const { probes } = (await server().get('/api/probes')).json<ProbesAnswer>();
  expect(probes.map(({ last }) => facts.lastWords(last, 'C'))).toEqual(['oxygen 19.4\u00a0%']);

  const { SeriesTable } = await copy.load<{ SeriesTable: FunctionComponent<{ series: SeriesAnswer; site: string }> }>(
    'web/src/charts/series-table.tsx',
  );
  const series = (
    await server().get(`/api/piles/shed/series?from=${encodeURIComponent(hoursAgo(9))}`)
  ).json<SeriesAnswer>();
  const table = renderToString(h(SeriesTable, { series, site: 'saltmere-yard' }));
  expect(table).toContain('Core, oxygen, %');
  expect(table).toContain('>17.5<');

  const { otherLines } =
    await copy.load<typeof import('../../web/src/charts/chart-data.ts')>('web/src/charts/chart-data.ts');
  expect(otherLines(series).map(({ quantity, lines }) => [quantity, lines.length])).toEqual([['oxygen', 1]]);

  const { quantities, foreignUnitsOf } =
    await copy.load<typeof import('../../shared/quantity.ts')>('shared/quantity.ts');
  expect(quantities).toContain('oxygen');
  expect(foreignUnitsOf(oxygen)).toEqual(['%', '/', 'ppm']);
  const { choicesFor } = await copy.load<typeof import('../../web/src/features/import/column-choices.ts')>(
    'web/src/features/import/column-choices.ts',
  );
  const words = pageWords(pageImportTexts, plainReader(0));
  expect(choicesFor('readings', { as: 'ignored' }, words)).toContainEqual(['value:oxygen', 'values of oxygen']);
});
