import { expect, test } from 'vitest';
import { fastClock } from '../../../shared/clock.ts';
import type { FarmMessage } from '../../../simulator/farm/play-farm.ts';
import { paceOut } from '../../../simulator/publish/pace.ts';
import type { Sink } from '../../../simulator/publish/sink.ts';

function messagesAt(times: number[]): FarmMessage[] {
  return times.map((atMs) => ({
    kind: 'reading',
    site: 's',
    probe: 'p',
    atMs,
    sendAtMs: atMs,
    values: { temperature: 1 },
  }));
}

function listeningSink(nowMs: () => number): { sink: Sink; heard: { sendAtMs: number; nowMs: number }[] } {
  const heard: { sendAtMs: number; nowMs: number }[] = [];
  return {
    heard,
    sink: {
      send: async ({ sendAtMs }) => {
        heard.push({ sendAtMs, nowMs: nowMs() });
      },
      close: async () => {},
    },
  };
}

test('paceOut() never sends a message before the clock has come to it, and sends the past at once', async () => {
  const startMs = Date.UTC(2031, 5, 1);
  const clock = fastClock({ startMs, anchorMs: Date.now(), speed: 3600 });
  const { sink, heard } = listeningSink(clock.nowMs);
  const past = Array.from({ length: 500 }, (_, i) => startMs - (500 - i) * 300_000);
  const future = Array.from({ length: 12 }, (_, i) => startMs + (i + 1) * 60_000);
  const sent = await paceOut(messagesAt([...past, ...future]), sink, { clock });
  expect(sent.readings).toBe(512);
  expect(heard).toHaveLength(512);
  for (const { sendAtMs, nowMs } of heard) expect(nowMs).toBeGreaterThanOrEqual(sendAtMs);
});

test('paceOut() stops when it is told to, though the next message lies far ahead', async () => {
  const stop = new AbortController();
  const { sink, heard } = listeningSink(() => 0);
  const going = paceOut(messagesAt([-1, 10 * 86_400_000]), sink, {
    clock: { nowMs: () => 0, speed: 1 },
    signal: stop.signal,
  });
  stop.abort();
  await going;
  expect(heard.length).toBeLessThanOrEqual(1);
});
