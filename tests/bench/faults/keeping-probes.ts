/**
 * Probes that keep each reading until it is acknowledged, as the README asks of them, and send it at QoS 1 until taken; on
 * demand in any order, and some of them twice.
 */
import mqtt from 'mqtt';
import type { Clock } from '../../../shared/clock.ts';
import { makeReading, type TrueProbe, type TrueReading } from './truth.ts';

const everyMs = 100;
const inFlight = 5;
/** Readings held back and mixed while they come out of order. */
const mixed = 12;

export interface KeepingProbes {
  /** From now on readings count to this fault; the longest time a probe heard no acknowledgement begins anew. */
  during(fault: number): void;
  longestPauseS(): number;
  /** Out of order, and a third of them twice. */
  disorder(on: boolean): void;
  counts(): { made: number; acked: number; sentTwice: number };
  /** Makes no more readings, and waits until all are acknowledged. */
  finish(): Promise<void>;
  close(): Promise<void>;
}

export function startProbes(
  url: string,
  probes: readonly TrueProbe[],
  clock: Clock,
  random: () => number,
): KeepingProbes {
  const bySite = new Map(
    probes.map(({ pile: { site } }) => [
      site,
      mqtt.connect(url, { clientId: `gateway-${site}`, clean: false, reconnectPeriod: 100, connectTimeout: 2_000 }),
    ]),
  );
  for (const client of bySite.values()) client.on('error', () => undefined); // the broker comes and goes: that is the bench
  const lanes = probes.map((probe) => ({
    probe,
    waiting: [] as TrueReading[],
    flying: 0,
    lastAckMs: performance.now(),
    longestMs: 0,
  }));
  let fault = 0;
  let made = 0;
  let acked = 0;
  let sentTwice = 0;
  let disordered = false;

  async function send(lane: (typeof lanes)[number], { atMs, value }: TrueReading): Promise<void> {
    const { probe, pile } = lane.probe;
    const payload = JSON.stringify({ time: atMs, temperature: value });
    for (;;) {
      try {
        await bySite.get(pile.site)?.publishAsync(`piles/${pile.site}/${probe}/reading`, payload, { qos: 1 });
        return;
      } catch {
        // Given back as the line broke: it is sent again.
        await new Promise((resolve) => setTimeout(resolve, 50));
      }
    }
  }

  async function sendNext(lane: (typeof lanes)[number]): Promise<void> {
    const place = disordered ? Math.floor(random() * lane.waiting.length) : 0;
    const [reading] = lane.waiting.splice(place, 1);
    if (!reading) return;
    lane.flying += 1;
    const twice = disordered && random() < 1 / 3;
    await send(lane, reading);
    if (twice) {
      sentTwice += 1;
      await send(lane, reading);
    }
    lane.flying -= 1;
    acked += 1;
    const nowMs = performance.now();
    lane.longestMs = Math.max(lane.longestMs, nowMs - lane.lastAckMs);
    lane.lastAckMs = nowMs;
    pump(lane);
  }

  function pump(lane: (typeof lanes)[number]): void {
    if (disordered && lane.waiting.length < mixed) return;
    while (lane.flying < inFlight && lane.waiting.length > 0) void sendNext(lane);
  }

  const timer = setInterval(() => {
    for (const lane of lanes) {
      lane.waiting.push(makeReading(lane.probe, clock.nowMs(), fault));
      made += 1;
      pump(lane);
    }
  }, everyMs);

  return {
    during(index) {
      fault = index;
      for (const lane of lanes) Object.assign(lane, { longestMs: 0, lastAckMs: performance.now() });
    },
    longestPauseS: () =>
      Math.max(...lanes.map((lane) => Math.max(lane.longestMs, performance.now() - lane.lastAckMs))) / 1_000,
    disorder(on) {
      disordered = on;
    },
    counts: () => ({ made, acked, sentTwice }),
    async finish() {
      clearInterval(timer);
      disordered = false;
      for (const lane of lanes) pump(lane);
      while (acked < made) await new Promise((resolve) => setTimeout(resolve, 20));
    },
    async close() {
      clearInterval(timer);
      await Promise.all([...bySite.values()].map((client) => client.endAsync(true).catch(() => undefined)));
    },
  };
}
