import { afterEach, beforeEach, expect, test } from 'vitest';
import { fastClock } from '../../../shared/clock.ts';
import { demoFarm } from '../../../simulator/scenarios/demo/demo-farm.ts';
import { farmStartMs, startFarm } from '../../../simulator/scenarios/demo/start-farm.ts';
import { type OpenBroker, openBroker } from '../open-broker.ts';

let open: OpenBroker;
beforeEach(async () => {
  open = await openBroker();
});
afterEach(() => open.close());

test('startFarm() tells the past of Saltmere, then follows the clock and is never ahead of it', async () => {
  const farm = demoFarm(1);
  const stop = new AbortController();
  const setting = { startMs: Date.UTC(2031, 5, 5), anchorMs: Date.now(), speed: 3600 };
  const clock = fastClock(setting);
  const going = startFarm({
    farm,
    clock: setting,
    mqttUrl: open.url,
    signal: stop.signal,
    onLive: () => setTimeout(() => stop.abort(), 1500),
  });
  const sent = await going;
  const readings = open.heard
    .filter(({ topic }) => topic.endsWith('/reading'))
    .map(({ payload, atMs }) => ({
      atMs: Date.parse((JSON.parse(payload) as { time: string }).time),
      heardAtMs: atMs,
    }));
  expect(readings).toHaveLength(sent.readings);
  const past = readings.filter(({ atMs }) => atMs < setting.startMs);
  expect(past.length).toBeGreaterThan(5000);
  expect(Math.min(...past.map(({ atMs }) => atMs))).toBeGreaterThanOrEqual(farmStartMs(farm, setting.startMs));
  expect(readings.length - past.length).toBeGreaterThan(100);
  for (const { atMs, heardAtMs } of readings) {
    expect(atMs).toBeLessThanOrEqual(setting.startMs + (heardAtMs - setting.anchorMs) * setting.speed);
  }
  expect(clock.nowMs()).toBeGreaterThan(setting.startMs);
  const farewells = open.heard.filter(({ topic, payload }) => topic.endsWith('/status') && payload === 'offline');
  expect(farewells).toHaveLength(16);
});
