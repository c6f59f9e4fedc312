/** A probe that served a pile of another site was heard until the next restart, and never after it. */
import { afterAll, beforeAll, test } from 'vitest';
import type { Clock } from '../../shared/clock.ts';
import { pilesAnswerSchema } from '../../shared/contracts/piles.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const startMs = Date.UTC(2031, 3, 1);
let nowMs = startMs;
const clock: Clock = { nowMs: () => nowMs, speed: 1 };
let folder: Awaited<ReturnType<typeof makeDataDir>>;
let one: TestInstallation;

beforeAll(async () => {
  folder = await makeDataDir();
  one = await openTestInstallation(folder.dataDir, {}, clock);
});
afterAll(async () => {
  await one.close();
  await folder.remove();
});

async function post(url: string, payload: object): Promise<void> {
  const answer = await one.app.inject({ method: 'POST', url, payload });
  if (answer.statusCode >= 300) throw new Error(`${url}: ${answer.body}`);
}

async function said(value: number): Promise<void> {
  nowMs += 60_000;
  const reading = { site: 'gateway', probe: 'p1', quantity: 'temperature' as const, atMs: nowMs, value };
  await commitReadings(one.installation, [reading]);
}

/** Judged, not only shown: the sentence is the judge's, and names the core. */
const judgedAt = (tempC: number) =>
  until(`a sentence with ${tempC} °C`, async () => {
    const { piles } = pilesAnswerSchema.parse((await one.app.inject({ url: '/api/piles' })).json());
    return piles[0]?.condition.includes(`${tempC} °C`) ? true : undefined;
  });

test('a probe that serves a pile of another site is heard, before and after a restart', async () => {
  await post('/api/sites', { name: 'Gateway' });
  await post('/api/sites', { name: 'Saltmere Yard' });
  await post('/api/piles', { site: 'saltmere-yard', id: 'bed', name: 'Bed', stage: 'bran', startedAt: startMs });
  await said(31);
  await post('/api/probes/gateway/p1/claim', { pileId: 'bed', position: 'core' });
  await said(32);
  await judgedAt(32);

  await one.close();
  one = await openTestInstallation(folder.dataDir, {}, clock);
  await said(33);
  await judgedAt(33);
});
