/**
 * When gateways brought what they had kept over a broken line, every pile had late readings and went back. All of them did
 * so in one go, round after round: for minutes no reading was taken in and no page answered.
 */
import { expect, test } from 'vitest';
import type { Clock } from '../../shared/clock.ts';
import { makeDataDir, openTestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const pileCount = 12;
const startMs = Date.UTC(2031, 3, 1);
let nowMs = startMs;
const clock: Clock = { nowMs: () => nowMs, speed: 1 };

test('piles that all have late readings let others have their turn between them', async () => {
  const { dataDir, remove } = await makeDataDir();
  const { app, installation, close } = await openTestInstallation(dataDir, {}, clock);
  const post = (url: string, payload: object) => app.inject({ method: 'POST', url, payload });
  const probes = Array.from({ length: pileCount }, (_, index) => `p${index}`);
  const say = async (probe: string, atMs: number, value: number) => {
    const reading = { site: 'saltmere-yard', probe, quantity: 'temperature' as const, atMs, value };
    await installation.readings.append([reading]);
    return () => installation.probes.record(reading);
  };
  await post('/api/sites', { name: 'Saltmere Yard' });
  for (const probe of probes) {
    await post('/api/piles', {
      site: 'saltmere-yard',
      id: `bed-${probe}`,
      name: `Bed ${probe}`,
      stage: 'bran',
      startedAt: startMs,
    });
    (await say(probe, startMs + 60_000, 30))();
    await post(`/api/probes/saltmere-yard/${probe}/claim`, { pileId: `bed-${probe}`, position: 'core' });
  }
  nowMs += 7_200_000;
  for (const probe of probes) (await say(probe, nowMs, 31))();
  await until('all judged', async () => (installation.watch.all().length === pileCount ? true : undefined));
  await new Promise((resolve) => setTimeout(resolve, 500));

  let turns = 0;
  let ended = false;
  const turn = () => {
    turns += 1;
    if (!ended) setImmediate(turn);
  };
  const turnsAt: number[] = [];
  const { readings } = installation;
  const rows = readings.rows.bind(readings);
  readings.rows = (...asked) => {
    turnsAt.push(turns);
    for (const untilMs = performance.now() + 15; performance.now() < untilMs; );
    return rows(...asked);
  };
  turn();
  const late = await Promise.all(probes.map((probe) => say(probe, nowMs - 3_600_000, 32)));
  for (const come of late) come();
  await until('every pile read back', () => (turnsAt.length >= pileCount ? true : undefined));
  ended = true;
  // Each takes 15 ms, and nothing is held up for much longer than that.
  expect(new Set(turnsAt).size).toBeGreaterThan(pileCount / 3);
  await close();
  await remove();
});
