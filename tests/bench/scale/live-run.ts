/** One server at work with so many probes: lags from publishing to page, resident memory, what was lost. */
import { makeDataDir } from '../../helpers/open-test-server.ts';
import { spawnInstallation } from '../../helpers/spawn-server.ts';
import { openLiveLag } from './live-lag.ts';
import { startPacedPublisher } from './paced-publisher.ts';
import { residentMb } from './resident.ts';
import { layScaleFarm, scaleProbes } from './scale-farm.ts';

export interface LiveRun {
  readonly probes: number;
  readonly startS: number;
  readonly p50Ms: number;
  readonly p99Ms: number;
  readonly mostMs: number;
  readonly rssMb: number;
  readonly sent: number;
  readonly acked: number;
  readonly neverShown: number;
  readonly publisherBehindMs: number;
}

export interface LiveRunOptions {
  readonly probes: number;
  readonly warmS: number;
  readonly measureS: number;
}

export async function liveRun({ probes: count, warmS, measureS }: LiveRunOptions): Promise<LiveRun> {
  const { dataDir, remove } = await makeDataDir();
  const probes = scaleProbes(count);
  await layScaleFarm(dataDir, probes, Date.now());
  const startedMs = performance.now();
  const installation = await spawnInstallation(dataDir, {
    environment: { LOG_LEVEL: 'info' },
    patienceMs: 600_000,
    // As `npm start` has it: most of a small server's memory would be room for garbage.
    nodeArguments: ['--max-semi-space-size=4'],
  });
  try {
    const startS = (performance.now() - startedMs) / 1_000;
    const page = await openLiveLag(installation.pagesUrl);
    const publisher = await startPacedPublisher(installation.mqttUrl, probes, (probe, atMs) =>
      page.published(probe.pileId, probe.position, atMs),
    );
    await seconds(warmS);
    page.restart();
    await seconds(measureS);
    const { lagsMs } = page.figures();
    const rssMb = await residentMb(installation.child.pid);
    await publisher.stop();
    const { sent, acked, mostBehindMs } = publisher.counts();
    await seconds(3);
    const neverShown = page.figures().waiting;
    page.close();
    const at = (share: number) => lagsMs[Math.min(lagsMs.length - 1, Math.floor(share * lagsMs.length))] ?? Number.NaN;
    return {
      probes: count,
      startS,
      p50Ms: at(0.5),
      p99Ms: at(0.99),
      mostMs: at(1),
      rssMb,
      sent,
      acked,
      neverShown,
      publisherBehindMs: Math.round(mostBehindMs),
    };
  } finally {
    await installation.stop('SIGKILL');
    await remove();
  }
}

const seconds = (s: number) => new Promise((resolve) => setTimeout(resolve, s * 1_000));
