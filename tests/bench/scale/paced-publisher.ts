/**
 * tests/bench/scale/paced-publisher.ts: every probe speaks once a minute, evenly spread, at QoS 1 over a few gateways.
 *
 * Takes:  a broker, the probes, who wants to know of each reading; a clock that may run fast, its minutes then too.
 * Gives:  how many were acknowledged and how far the publisher itself fell behind its clock.
 */
import { connectAsync } from 'mqtt';
import { type Clock, liveClock } from '../../../shared/clock.ts';
import { type FarmProbe, tempAtC } from './scale-farm.ts';

const gateways = 8;
const tickMs = 20;
const periodMs = 60_000;

export interface PacedPublisher {
  counts(): { sent: number; acked: number; mostBehindMs: number };
  stop(): Promise<void>;
}

export async function startPacedPublisher(
  mqttUrl: string,
  probes: readonly FarmProbe[],
  published: (probe: FarmProbe, atMs: number, sentMs: number) => void,
  clock: Clock = liveClock,
): Promise<PacedPublisher> {
  const clients = await Promise.all(
    Array.from({ length: gateways }, (_, index) => connectAsync(mqttUrl, { clientId: `scale-gateway-${index}` })),
  );
  const startMs = Date.now();
  const speed = clock.speed;
  let sent = 0;
  let acked = 0;
  let mostBehindMs = 0;
  const timer = setInterval(() => {
    const nowMs = Date.now();
    const due = Math.floor((((nowMs - startMs) * speed) / periodMs) * probes.length);
    mostBehindMs = Math.max(mostBehindMs, ((due - sent) / probes.length) * (periodMs / speed) - tickMs);
    for (; sent < due; sent += 1) {
      const probe = probes[sent % probes.length];
      if (probe === undefined) continue;
      const atMs = clock.nowMs();
      const payload = `{"time":${atMs},"temperature":${tempAtC(probe.position, 168)}}`;
      published(probe, atMs, Date.now());
      clients[sent % gateways]?.publish(`piles/${probe.site}/${probe.probe}/reading`, payload, { qos: 1 }, (error) => {
        if (!error) acked += 1;
      });
    }
  }, tickMs);
  return {
    counts: () => ({ sent, acked, mostBehindMs }),
    async stop() {
      clearInterval(timer);
      await Promise.all(clients.map((client) => client.endAsync()));
    },
  };
}
