import { afterEach, beforeEach, expect, test } from 'vitest';
import type { Clock } from '../../shared/clock.ts';
import { alarmsAnswerSchema } from '../../shared/contracts/alarms.ts';
import { type PileDetail, pileDetailSchema } from '../../shared/contracts/piles.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const minuteMs = 60_000;
const laidMs = Date.UTC(2031, 4, 1, 6);
let nowMs: number;
const clock: Clock = { nowMs: () => nowMs, speed: 1 };
let one: TestInstallation;
let dataDir: string;
let remove: () => Promise<void>;

beforeEach(async () => {
  nowMs = laidMs;
  ({ dataDir, remove } = await makeDataDir());
  one = await openTestInstallation(dataDir, {}, clock);
  await post('/api/sites', { name: 'Saltmere Yard' });
  await post('/api/piles', { site: 'saltmere-yard', id: 'shed', name: 'Shed', stage: 'bran' });
  await measure(24);
  await post('/api/probes/saltmere-yard/p1/claim', { pileId: 'shed', position: 'core' });
});
afterEach(async () => {
  await one.close();
  await remove();
});

async function post(url: string, payload: object = {}) {
  const answer = await one.app.inject({ method: 'POST', url, payload });
  if (answer.statusCode >= 300) throw new Error(`${url}: ${answer.body}`);
}

async function measure(coreC: number, atMs = nowMs) {
  const reading = { site: 'saltmere-yard', probe: 'p1', quantity: 'temperature' as const, value: coreC, atMs };
  await commitReadings(one.installation, [reading]);
}

/** The core rises by 1 °C each half hour up to `peakC` and stays there for two hours, read every ten minutes. */
async function heatUp(peakC: number) {
  for (let step = 0; step < ((peakC - 24) / 1) * 3 + 12; step++) {
    nowMs += 10 * minuteMs;
    await measure(Math.min(peakC, 24 + step / 3));
  }
}

async function detail(): Promise<PileDetail> {
  return pileDetailSchema.parse((await one.app.inject({ url: '/api/piles/shed' })).json());
}

async function alarmsSoFar() {
  return alarmsAnswerSchema.parse((await one.app.inject({ url: '/api/piles/shed/alarms' })).json()).alarms;
}

const standing = (kind: string) => async () => (await detail()).alarms.find((alarm) => alarm.kind === kind);

/** Several looks at unchanged readings while the clock goes on. */
async function lookOn(minutes: number) {
  for (let minute = 0; minute < minutes; minute += 10) {
    nowMs += 10 * minuteMs;
    await measure(53);
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
}

test('a core above the limit for longer than the on-delay raises one alarm, and the sentence says what to do', async () => {
  await heatUp(53);
  await lookOn(40);
  const alarm = await until('the alarm', standing('overheating'));
  expect(alarm.state).toBe('unacknowledged');
  const pile = await detail();
  expect(pile.condition).toContain('53 °C');
  expect(['act', 'danger']).toContain(pile.tone);
});

test('a restart raises nothing twice: the same alarm stands as it was left, with the same steps', async () => {
  await heatUp(53);
  await lookOn(40);
  const before = await until('the alarm', standing('overheating'));
  await post(`/api/alarms/${before.id}/acknowledge`, { by: 'apprentice', note: 'on my way' });
  const stepsBefore = await alarmsSoFar();
  await one.close();

  nowMs += 5 * minuteMs;
  one = await openTestInstallation(dataDir, {}, clock);
  await measure(53);
  await new Promise((resolve) => setTimeout(resolve, 700)); // three rounds
  expect(await standing('overheating')()).toMatchObject({ id: before.id, state: 'acknowledged' });
  expect(await alarmsSoFar()).toEqual(stepsBefore);
  expect(stepsBefore.find(({ id }) => id === before.id)?.steps.map(({ arrow, by }) => [arrow, by])).toEqual([
    ['raised', null],
    ['acknowledged', 'apprentice'],
  ]);
});

test('finishing a batch ends its alarms, and says so in their steps', async () => {
  await heatUp(53);
  await lookOn(40);
  const alarm = await until('the alarm', standing('overheating'));
  await post('/api/piles/shed/finish', { outcome: 'spread on the beds' });
  expect((await detail()).alarms).toEqual([]);
  const ended = (await alarmsSoFar()).find(({ id }) => id === alarm.id);
  expect([ended?.state, ended?.steps.at(-1)?.arrow]).toEqual(['normal', 'batch-finished']);
});

test('a shelved alarm is quiet until its time is up, then stands again', async () => {
  await heatUp(53);
  await lookOn(40);
  const { id } = await until('the alarm', standing('overheating'));
  await post(`/api/alarms/${id}/shelve`, { minutes: 30, note: 'turning it now' });
  expect(await standing('overheating')()).toMatchObject({ state: 'shelved' });
  await lookOn(40);
  await until(
    'the end of the shelf',
    async () => (await standing('overheating')())?.state === 'unacknowledged' || undefined,
  );
});
