/**
 * So many workers share a farm of eight sites with 200 piles, whose 800 probes each speak once a minute of a clock that
 * runs fast: what a message that is taken in, judged and handed over costs of the processor, with all that goes on beside.
 */
import { setTimeout as sleep } from 'node:timers/promises';
import { fastClock } from '../../../shared/clock.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { msPerHour } from '../../../shared/units.ts';
import { until } from '../../helpers/until.ts';
import { startPacedPublisher } from './paced-publisher.ts';
import { type FarmProbe, farmRecipe, scaleProbes } from './scale-farm.ts';
import { type FarmCpu, openWorkerFarm } from './worker-farm.ts';

const probeCount = 800;
const speed = 20;
/** Curves of new piles are worked out meanwhile. */
const warmS = 30;
const measureS = 60;
const patienceMs = 120_000;

export interface WatchedRun {
  readonly workers: number;
  /** Taken in and kept while it was measured. */
  readonly messages: number;
  /** Acknowledged and not kept. */
  readonly lost: number;
  /** Processor time for one message [µs]. */
  readonly workerUs: number;
  readonly postgresUs: number;
  readonly influxUs: number;
  readonly mosquittoUs: number;
}

export async function watchedRun(count: number): Promise<WatchedRun> {
  const probes = scaleProbes(probeCount);
  const nowMs = Date.now();
  const setting = { startMs: nowMs, anchorMs: nowMs, speed };
  const farm = await openWorkerFarm(
    count,
    [...new Set(probes.map(({ site }) => site))],
    { CLOCK: JSON.stringify(setting) },
    (journal) => layFarm(journal, probes, nowMs),
  );
  try {
    const publisher = await startPacedPublisher(farm.mqtt.url, probes, () => {}, fastClock(setting));
    await sleep(1_000 * warmS);
    const [begun, first] = [farm.cpu(), await farm.kept()];
    await sleep(1_000 * measureS);
    const [ended, last] = [farm.cpu(), await farm.kept()];
    await publisher.stop();
    const { acked } = publisher.counts();
    // What a busy machine has not taken in yet waits at the broker.
    await until('everything to be kept', async () => (await farm.kept()) >= acked || undefined, patienceMs).catch(
      () => {},
    );
    const rows = await farm.stop();
    const messages = last - first;
    const usOf = (program: keyof FarmCpu) => Math.round((1e6 * (ended[program] - begun[program])) / messages);
    return {
      workers: count,
      messages,
      lost: acked - rows,
      workerUs: usOf('worker'),
      postgresUs: usOf('postgres'),
      influxUs: usOf('influx'),
      mosquittoUs: usOf('mosquitto'),
    };
  } finally {
    await farm.remove();
  }
}

/** A bran batch laid an hour ago on each pile, its four probes claimed. */
async function layFarm(journal: Journal, probes: readonly FarmProbe[], nowMs: number): Promise<void> {
  const laidMs = nowMs - msPerHour;
  const sites = new Set<string>();
  for (const { site, probe, pileId, position } of probes) {
    if (!sites.has(site))
      await journal.sites.add({ id: site, name: site, timeZone: null, latitude: null, longitude: null });
    sites.add(site);
    if (position === 'core') {
      await journal.piles.add(
        { id: pileId, siteId: site, name: pileId, createdAtMs: laidMs },
        {
          id: `batch-of-${pileId}`,
          pileId,
          stage: 'bran',
          startedAtMs: laidMs,
          endedAtMs: null,
          outcome: null,
          recipe: farmRecipe,
          limits: {},
        },
      );
    }
    await journal.claims.claim({ site, probe, pileId, position, fromMs: laidMs });
  }
}
