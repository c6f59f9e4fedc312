/** The real litter heap replayed over MQTT into a server whose clock runs 3,600 times as fast. */
import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { type PileSummary, pilesAnswerSchema } from '../../shared/contracts/piles.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';

const speed = 3_600;
const hourMs = 3_600_000;
/** The first row of the series; its clock is Danish summer time, read here as UTC. */
const firstRowMs = Date.UTC(2023, 7, 29, 10);
const seriesPath = fileURLToPath(new URL('../data/litter-heap-2023-hourly.csv', import.meta.url));
const simulatePath = fileURLToPath(new URL('../../.build/simulator/cli/main.js', import.meta.url));
const site = 'saltmere-yard';
const takes = {
  T12_C: ['core', 'temperature'],
  T11_C: ['base', 'temperature'],
  T13_C: ['top', 'temperature'],
  air_temp_C: ['air', 'temperature'],
} as const;

/** Hours since the first row. */
export const hourOf = (atMs: number): number => (atMs - firstRowMs) / hourMs;

interface Sight {
  /** Hours since the first row. */
  readonly atH: number;
  readonly pile: PileSummary;
}

export interface HeapRun {
  readonly sights: readonly Sight[];
  /** Alarms seen in any state other than normal: kind and position, in order of appearance. */
  readonly raised: readonly string[];
}

export async function playLitterHeap(fromH: number, toH: number): Promise<HeapRun> {
  const { dataDir, remove } = await makeDataDir();
  const clock = { startMs: firstRowMs + fromH * hourMs, anchorMs: Date.now(), speed };
  const installation = await spawnInstallation(dataDir, { environment: { CLOCK: JSON.stringify(clock) } });
  const replay = startReplay(installation.mqttUrl, JSON.stringify(clock), fromH);
  try {
    await settle(installation, fromH);
    return await follow(installation, toH);
  } finally {
    replay.kill();
    await installation.stop();
    await remove();
  }
}

function startReplay(mqttUrl: string, clock: string, historyH: number) {
  const columns = Object.entries(takes).flatMap(([column, [probe, quantity]]) => [
    '--take',
    `${column}=${probe}.${quantity}`,
  ]);
  // The clock starts `historyH` hours after the first row, which is then history.
  const when = ['--clock', clock, '--history', String(historyH)];
  return spawn(
    process.execPath,
    [
      simulatePath,
      'replay',
      seriesPath,
      '--mqtt',
      mqttUrl,
      '--time',
      'time_local',
      '--site',
      site,
      ...when,
      ...columns,
    ],
    { stdio: 'ignore' },
  );
}

/** Claims the probes once they have told their past; from then on the pile is watched. */
async function settle(installation: SpawnedInstallation, fromH: number): Promise<void> {
  const post = async (path: string, body: object) => {
    const answer = await fetch(`${installation.pagesUrl}${path}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    if (!answer.ok) throw new Error(`${path}: ${await answer.text()}`);
  };
  await post('/api/sites', { id: site, name: 'Saltmere Yard' });
  const heap = { material: 'other', depthM: 1.8, moistureFrac: 0.488, cover: 'open' };
  await post('/api/piles', {
    id: 'heap',
    site,
    name: 'Litter heap',
    stage: 'bran',
    startedAt: firstRowMs,
    recipe: heap,
  });
  for (const [probe] of Object.values(takes)) {
    await until(`${probe} at hour ${fromH}`, async () => {
      const { probes } = (await (await fetch(`${installation.pagesUrl}/api/probes`)).json()) as {
        probes: { probe: string; lastAt: string | null }[];
      };
      const known = probes.find((one) => one.probe === probe);
      return known?.lastAt && Date.parse(known.lastAt) >= firstRowMs + (fromH - 1) * hourMs ? true : undefined;
    });
    await post(`/api/probes/${site}/${probe}/claim`, { pileId: 'heap', position: probe, from: firstRowMs });
  }
}

async function follow(installation: SpawnedInstallation, toH: number): Promise<HeapRun> {
  const sights: Sight[] = [];
  const raised: string[] = [];
  let before = '';
  for (;;) {
    const health = (await (await fetch(`${installation.pagesUrl}/api/health`)).json()) as { now: string };
    const { piles } = pilesAnswerSchema.parse(await (await fetch(`${installation.pagesUrl}/api/piles`)).json());
    const pile = piles[0];
    const atH = hourOf(Date.parse(health.now));
    if (pile) {
      const now = `${pile.condition} ${pile.alarms.map(({ kind, state }) => kind + state)}`;
      if (now !== before) sights.push({ atH, pile });
      before = now;
      for (const { kind, position } of pile.alarms) {
        const name = `${kind} ${position ?? ''}`.trim();
        if (!raised.includes(name)) raised.push(name);
      }
    }
    if (atH >= toH) return { sights, raised };
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}
