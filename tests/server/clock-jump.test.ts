// The machine's clock is set while the server is at work: by an hour, by a day, forward and back.
import { afterEach, describe, expect, test } from 'vitest';
import type { JudgeReading } from '../../core/profiles/pile-setup.ts';
import { AlarmRegistry } from '../../core/session/alarm-registry.ts';
import { jumpDetector } from '../../server/monitor/clock-jump.ts';
import { PileWatch } from '../../server/pile/pile-watch.ts';
import { fastClock } from '../../shared/clock.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { makeDataDir, openTestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const minuteMs = 60_000;
const hourMs = 60 * minuteMs;
const startMs = Date.UTC(2028, 1, 28, 20); // the evening before a leap day

/** A machine whose time passes and whose clock is set only as told. */
function machine() {
  let wallMs = startMs;
  let steadyMs = 0;
  return {
    clock: { nowMs: () => wallMs, steadyMs: () => steadyMs, speed: 1 },
    pass(ms: number) {
      wallMs += ms;
      steadyMs += ms;
    },
    set(byMs: number) {
      wallMs += byMs;
    },
  };
}

const jumps: [string, number, number, number][] = [
  // what                          passed   set by        found
  ['time that passes', 3 * hourMs, 0, 0],
  ['a clock steered by a minute', 1_000, minuteMs, 0],
  ['a clock set on by more', 1_000, minuteMs + 1, minuteMs + 1],
  ['a clock set back by an hour', 5 * minuteMs, -hourMs, -hourMs],
  ['a clock set on by a day', 0, 24 * hourMs, 24 * hourMs],
];
for (const [what, passedMs, setMs, foundMs] of jumps) {
  test(`a jump detector on ${what}: ${foundMs} ms`, () => {
    const one = machine();
    const jumpMs = jumpDetector(one.clock);
    one.pass(passedMs);
    one.set(setMs);
    expect(jumpMs()).toBe(foundMs);
    expect(jumpMs()).toBe(0);
  });
}

const fastJumps: [string, number, number][] = [
  // what                                 set by [ms of the machine]   found [ms of the server]
  ['set on by no more than a second', 1_000, 0],
  ['set on by more', 1_001, 60_060],
  ['set back by a minute', -60_000, -3_600_000],
];
for (const [what, setMs, foundMs] of fastJumps) {
  test(`a jump detector on a clock sixty times as fast whose machine is ${what}: ${foundMs} ms`, () => {
    const one = machine();
    const setting = { startMs, anchorMs: startMs, speed: 60 };
    const jumpMs = jumpDetector(fastClock(setting, one.clock.nowMs, one.clock.steadyMs));
    one.pass(10_000);
    one.set(setMs);
    expect(jumpMs()).toBe(foundMs);
    expect(jumpMs()).toBe(0);
  });
}

describe('a watched pile', () => {
  const closing: (() => Promise<unknown>)[] = [];
  afterEach(async () => {
    for (const close of closing.splice(0).reverse()) await close();
  });

  async function open() {
    const one = machine();
    const { dataDir, remove } = await makeDataDir();
    closing.push(remove);
    const installation = await openTestInstallation(dataDir, {}, one.clock);
    closing.push(() => installation.close());
    const post = (url: string, payload: object) => installation.app.inject({ method: 'POST', url, payload });
    const laidAt = new Date(startMs - 72 * hourMs).toISOString();
    await post('/api/sites', { name: 'Saltmere Yard', timeZone: 'Europe/Lisbon' });
    await post('/api/piles', { site: 'saltmere-yard', id: 'bed', name: 'Bed', stage: 'bran', startedAt: laidAt });
    const speak = async (value: number, probe = 'p1') => {
      const reading = {
        site: 'saltmere-yard',
        probe,
        quantity: 'temperature' as const,
        atMs: one.clock.nowMs(),
        value,
      };
      await commitReadings(installation.installation, [reading]);
    };
    await speak(30);
    await post('/api/probes/saltmere-yard/p1/claim', { pileId: 'bed', position: 'core' });
    await speak(15, 'p2');
    await post('/api/probes/saltmere-yard/p2/claim', { pileId: 'bed', position: 'air' });
    const alarms = async () =>
      (await installation.app.inject({ url: '/api/piles/bed/alarms' })).json<{
        alarms: { kind: string; state: string }[];
      }>().alarms;
    return { one, speak, alarms };
  }

  for (const [what, setMs] of [
    ['on by an hour', hourMs],
    ['on by a day', 24 * hourMs],
    ['back by an hour', -hourMs],
    ['back by a day', -24 * hourMs],
  ] as const) {
    test(`is not said to have fallen silent when the clock is set ${what}, and is when its probe really is`, async () => {
      const { one, speak, alarms } = await open();
      for (let minute = 0; minute < 90; minute += 1) {
        one.pass(minuteMs);
        await speak(30 + minute / 100);
        if (minute % 10 === 0) await speak(15 + minute / 30, 'p2');
      }
      await new Promise((resolve) => setTimeout(resolve, 500));
      expect(await alarms()).toEqual([]);
      one.set(setMs);
      await speak(15.7, 'p2'); // so that the pile is looked at before its core speaks again
      await new Promise((resolve) => setTimeout(resolve, 700));
      expect(await alarms()).toEqual([]);
      for (let minute = 0; minute < 40; minute += 1) {
        one.pass(minuteMs);
        await speak(31);
        if (minute % 10 === 0) await speak(15 + minute / 30, 'p2');
      }
      await new Promise((resolve) => setTimeout(resolve, 700));
      expect(await alarms()).toEqual([]);
      one.pass(6 * hourMs);
      await until('the silence to be said', async () => (await alarms()).find(({ kind }) => kind === 'probe-silent'));
    });
  }
});

test('an alarm does not wait a day when the clock is set back by a day, and none steps back', async () => {
  const laidMs = startMs - 30 * 24 * hourMs;
  const committed: JudgeReading[] = [];
  const registry = new AlarmRegistry('bed', [], () => 'one');
  const watch = new PileWatch({
    pile: { id: 'bed', siteId: 'saltmere-yard', name: 'Bed', createdAtMs: laidMs },
    batch: {
      id: 'b',
      pileId: 'bed',
      stage: 'bran',
      startedAtMs: startMs - 48 * hourMs,
      endedAtMs: null,
      outcome: null,
      recipe: { material: 'wheat-bran', depthM: 0.3, cover: 'breathable' },
      limits: {},
    },
    acts: [],
    registry,
    async *readBack(fromMs, toMs) {
      yield committed.filter(({ atMs }) => atMs >= fromMs && atMs < toMs).sort((a, b) => a.atMs - b.atMs);
    },
  });
  const speak = (atMs: number, value: number) => {
    const reading: JudgeReading = { position: 'core', quantity: 'temperature', value, atMs };
    committed.push(reading);
    watch.receive(reading);
  };
  const steps: number[] = [];
  const look = async (nowMs: number) => {
    const change = await watch.evaluate(nowMs, false, Number.POSITIVE_INFINITY);
    steps.push(...change.steps.map(({ atMs }) => atMs));
    return change.alarms.map(({ kind }) => kind);
  };
  for (let atMs = startMs - 40 * hourMs; atMs < startMs; atMs += 10 * minuteMs) speak(atMs, 38);
  await look(startMs);
  const backMs = startMs - 24 * hourMs;
  watch.clockWasSet(backMs);
  steps.length = 0;
  const raised: string[] = [];
  for (let minute = 0; minute <= 90; minute += 10) {
    speak(backMs + minute * minuteMs, 58);
    raised.push(...(await look(backMs + minute * minuteMs)));
  }
  expect(raised).toContain('overheating');
  expect(watch.assessment?.positions.core?.temperatureC).toBe(58);
  expect(Math.max(...steps)).toBeLessThanOrEqual(backMs + 90 * minuteMs);
});
