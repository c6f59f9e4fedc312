/** How long it takes to lay 24 batches of 14 days over each other, core and air each at one minute. */
import { join } from 'node:path';
import pino from 'pino';
import { buildApp } from '../../server/app/app.ts';
import { openInstallation } from '../../server/app/open-single.ts';
import { liveClock } from '../../shared/clock.ts';
import { readConfig } from '../../shared/config.ts';
import { openSqliteJournal } from '../../shared/store/journal/sqlite-journal.ts';
import { openSqliteReadings } from '../../shared/store/readings/sqlite-readings.ts';
import { bandsAtOnce, makeDataDir } from '../helpers/open-test-server.ts';
import { median } from './table.ts';

const site = 'saltmere-yard';
const minuteMs = 60_000;
const dayMs = 86_400_000;
const batches = 24;
const days = 14;
const rounds = 21;

export interface CompareTimes {
  /** Curves of all of them over the route. */
  readonly compareMs: number;
  /** Their table of measures over the route. */
  readonly measuresMs: number;
}

export async function timeCompare(): Promise<CompareTimes> {
  const { dataDir, remove } = await makeDataDir();
  try {
    await fill(dataDir, Math.floor(Date.now() / dayMs) * dayMs - (batches + 1) * days * dayMs);
    return await timeRoutes(dataDir);
  } finally {
    await remove();
  }
}

/** One pile, batch after batch. */
async function fill(dataDir: string, fromMs: number): Promise<void> {
  const journal = await openSqliteJournal(join(dataDir, 'journal.db'));
  await journal.sites.add({ id: site, name: 'Saltmere Yard', timeZone: 'UTC', latitude: 41, longitude: null });
  for (let i = 0; i < batches; i += 1) {
    const startedAtMs = fromMs + i * days * dayMs;
    const batch = {
      id: `b${i}`,
      pileId: 'bed',
      stage: 'bran' as const,
      startedAtMs,
      endedAtMs: startedAtMs + days * dayMs,
      outcome: null,
      recipe: { material: 'wheat-bran' as const, depthM: 0.3, moistureFrac: 0.6, cover: 'breathable' as const },
      limits: {},
    };
    if (i > 0) await journal.batches.add(batch);
    else await journal.piles.add({ id: 'bed', siteId: site, name: 'Bed', createdAtMs: fromMs }, batch);
  }
  for (const position of ['core', 'air'] as const) {
    await journal.claims.claim({ site, probe: position, pileId: 'bed', position, fromMs });
  }
  await journal.close();

  const store = openSqliteReadings(join(dataDir, 'readings.db'));
  const minutes = batches * days * 1440;
  for (let first = 0; first < minutes; first += 2500) {
    const some = Array.from({ length: Math.min(2500, minutes - first) }, (_, i) => first + i);
    await store.append(
      some.flatMap((minute) =>
        (['core', 'air'] as const).map((probe) => ({
          site,
          probe,
          quantity: 'temperature' as const,
          atMs: fromMs + minute * minuteMs,
          value: probe === 'air' ? 18 + 5 * Math.sin(minute / 229) : 20 + 25 * Math.sin((minute % 20_160) / 6_417),
        })),
      ),
    );
  }
  await store.close();
}

async function timeRoutes(dataDir: string): Promise<CompareTimes> {
  const { config } = readConfig({
    BRANHEARTH_MQTT_PORT: '0',
    BRANHEARTH_DATA_DIR: dataDir,
    BRANHEARTH_LOG_LEVEL: 'silent',
  });
  const log = pino({ level: 'silent' });
  const installation = await openInstallation({ config, clock: liveClock, log, version: 'bench', bands: bandsAtOnce });
  const app = await buildApp(installation);
  try {
    const address = await app.listen({ host: '127.0.0.1', port: 0 });
    const compareMs = await timeRoute(`${address}/api/compare/curves`, (answer) => {
      const { curves } = answer as { curves: { coreC: (number | null)[] }[] };
      const hours = curves[0]?.coreC.filter((tempC) => tempC !== null).length ?? 0;
      if (curves.length !== batches || hours < days * 24 - 2) throw new Error(`${curves.length} curves of ${hours} h`);
    });
    const measuresMs = await timeRoute(`${address}/api/compare`, (answer) => {
      const table = (answer as { batches: unknown[] }).batches;
      if (table.length !== batches) throw new Error(`${table.length} rows`);
    });
    return { compareMs, measuresMs };
  } finally {
    await app.close();
    await installation.close();
  }
}

async function timeRoute(url: string, check: (answer: unknown) => void): Promise<number> {
  const times: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const startMs = performance.now();
    const answer = await fetch(url, { headers: { 'accept-encoding': 'identity' } });
    check(await answer.json());
    times.push(performance.now() - startMs);
  }
  return median(times);
}
