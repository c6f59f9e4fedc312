/**
 * Every probe speaks once a minute, evenly spread, at QoS 1 over a few gateways; how many were acknowledged, how far the
 * publisher fell behind its own clock, how often a line broke. A clock may run fast, its minutes then too.
 */
import { type Clock, liveClock } from '../../../shared/clock.ts';
import { openGateway } from './gateway.ts';
import { type FarmProbe, tempAtC } from './scale-farm.ts';

const gatewayCount = 8;
const tickMs = 20;
const periodMs = 60_000;
/** For what a server that was held up has yet to acknowledge. */
const patienceMs = 60_000;

export interface PacedPublisher {
  counts(): { sent: number; acked: number; mostBehindMs: number; breaks: number };
  /** Sends nothing new, and resolves once all is acknowledged or the time is over. */
  stop(withinMs?: number): Promise<void>;
}

export async function startPacedPublisher(
  mqttUrl: string,
  probes: readonly FarmProbe[],
  published: (probe: FarmProbe, atMs: number, sentMs: number) => void,
  clock: Clock = liveClock,
): Promise<PacedPublisher> {
  const gateways = await Promise.all(
    Array.from({ length: gatewayCount }, (_, index) => openGateway(mqttUrl, `scale-gateway-${index}`)),
  );
  const startMs = Date.now();
  const firstAtMs = clock.nowMs();
  const speed = clock.speed;
  let sent = 0;
  let mostBehindMs = 0;
  const timer = setInterval(() => {
    const nowMs = Date.now();
    const due = Math.floor((((nowMs - startMs) * speed) / periodMs) * probes.length);
    mostBehindMs = Math.max(mostBehindMs, ((due - sent) / probes.length) * (periodMs / speed) - tickMs);
    for (; sent < due; sent += 1) {
      const probe = probes[sent % probes.length];
      if (probe === undefined) continue;
      // Measured when it was due, however late it is sent: two of one probe never bear the same time.
      const atMs = Math.round(firstAtMs + (sent / probes.length) * periodMs);
      const payload = `{"time":${atMs},"temperature":${tempAtC(probe.position, 168)}}`;
      published(probe, atMs, Date.now());
      gateways[sent % gatewayCount]?.send(`piles/${probe.site}/${probe.probe}/reading`, payload);
    }
  }, tickMs);

  const sum = (of: (counts: { acked: number; breaks: number }) => number) =>
    gateways.reduce((total, gateway) => total + of(gateway.counts()), 0);
  return {
    counts: () => ({ sent, acked: sum(({ acked }) => acked), mostBehindMs, breaks: sum(({ breaks }) => breaks) }),
    async stop(withinMs = patienceMs) {
      clearInterval(timer);
      await Promise.all(gateways.map((gateway) => gateway.stop(withinMs)));
    },
  };
}
