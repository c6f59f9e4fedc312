import { afterAll, beforeAll, expect, test } from 'vitest';
import { difference } from '../../core/seasons/difference.ts';
import { compareAnswerSchema, differenceAnswerSchema } from '../../shared/contracts/seasons.ts';
import { writePast } from '../../simulator/demo/past-seasons/write-past.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { demoStartMs } from '../helpers/past-server.ts';

let one: TestInstallation;
let remove: () => Promise<void>;
beforeAll(async () => {
  const folder = await makeDataDir();
  remove = folder.remove;
  await writePast({ dataDir: folder.dataDir, seed: 9, demoStartMs });
  one = await openTestInstallation(folder.dataDir, {}, { nowMs: () => demoStartMs, speed: 1 });
});
afterAll(async () => {
  await one.close();
  await remove();
});

const tell = async (query: string) =>
  differenceAnswerSchema.parse((await one.app.inject(`/api/seasons/difference?${query}`)).json());

test('GET /api/seasons/difference parts the chosen batches and says of each measure how far two groups are apart', async () => {
  const answer = await tell('stage=bran&split=site&one=saltmere-yard&other=saltmere-terrace');
  const { batches } = compareAnswerSchema.parse((await one.app.inject('/api/compare?stage=bran')).json());
  const of = (site: string) => batches.filter((batch) => batch.site === site);
  const ids = [...new Set(batches.map(({ site }) => site))];
  expect(ids).toHaveLength(2);
  expect(new Set(answer.groups.map(({ id }) => id))).toEqual(new Set(ids));
  const [first, second] = [of(answer.one?.id ?? ''), of(answer.other?.id ?? '')];
  expect([answer.one?.batches, answer.other?.batches]).toEqual([first.length, second.length]);
  const peaks = answer.measures.find(({ key }) => key === 'peakC');
  const byHand = difference(
    first.map(({ measures }) => measures.peakC),
    second.map(({ measures }) => measures.peakC),
  );
  expect(peaks).toMatchObject({ counts: byHand.counts, shift: byHand.shift, interval: byHand.interval });
  expect(answer.says[0]).toMatch(/does not say why/);
});

test('GET /api/seasons/difference gives no interval for two batches each, and no pair where all are alike', async () => {
  const { batches } = compareAnswerSchema.parse((await one.app.inject('/api/compare?stage=bran')).json());
  const sites = [...new Set(batches.map(({ site }) => site))];
  const few = sites.flatMap((site) => batches.filter((batch) => batch.site === site).slice(0, 2));
  const answer = await tell(`split=site&batches=${few.map(({ id }) => id).join(',')}`);
  expect(answer.measures.every(({ interval, apart }) => interval === null && !apart)).toBe(true);
  expect(await tell('stage=bran&split=stage')).toMatchObject({ one: null, other: null, measures: [] });
});

test('GET /api/seasons/difference refuses a way of parting it does not know', async () => {
  expect((await one.app.inject('/api/seasons/difference?split=luck')).statusCode).toBe(400);
});
