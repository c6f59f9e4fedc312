/**
 * `npm run bench -- page [first|pile|visit|many|live]`: the pages on a slow phone, in Chromium: a processor four times slower than
 * here, 1.6 Mbit/s down, 750 kbit/s up, 150 ms away. The program is the built one, its farm made up.
 *
 * Figures: `home_first_ms` and `home_again_ms` until the sentence of four piles can be read; `many_usable_ms` until the home of 300
 * answers a letter typed within 100 ms, and `many_letter_ms` for that letter; `chart_ms` until the chart of 14 days at one minute is drawn;
 * `interaction_p95_ms` over a visit, from press to the next paint, with the worst `shift` of a page; `script_kb` and
 * `script_charts_kb`, gzip; `live_busy` the share of its time that the main thread works while 300 piles change each second; `load` of
 * the machine before and after, as other work makes every figure worse. The worker of the pages is not slowed down with them.
 */
import { loadavg } from 'node:os';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { busyShare } from './page/busy-share.ts';
import { chartDrawn } from './page/chart-drawn.ts';
import { homeOfFour } from './page/home-of-four.ts';
import { layMinutes } from './page/lay-minutes.ts';
import { manyUsable } from './page/many-usable.ts';
import { visit } from './page/visit.ts';
import { layScaleFarm, scaleProbes } from './scale/scale-farm.ts';
import { printTable } from './table.ts';

type Figures = Record<string, number>;
type Part = (installation: SpawnedInstallation) => Promise<Figures>;

const parts: Record<string, { readonly piles: number; readonly run: Part }> = {
  first: { piles: 4, run: ({ pagesUrl }) => homeOfFour(pagesUrl) },
  pile: { piles: 4, run: ({ pagesUrl }) => chartDrawn(pagesUrl) },
  visit: { piles: 4, run: ({ pagesUrl }) => visit(pagesUrl) },
  many: { piles: 300, run: ({ pagesUrl }) => manyUsable(pagesUrl) },
  live: { piles: 300, run: ({ pagesUrl, mqttUrl }) => busyShare(pagesUrl, mqttUrl, 300) },
};

export async function run(part?: string): Promise<Figures> {
  const asked = part === undefined ? Object.values(parts) : [parts[part]];
  const figures: Figures = { load_before: loadavg()[0] ?? Number.NaN };
  for (const one of asked) {
    if (!one) throw new Error(`Cannot run part ${part} as the parts are ${Object.keys(parts).join(', ')}`);
    Object.assign(figures, await onFarm(one.piles, one.run));
  }
  figures.load_after = loadavg()[0] ?? Number.NaN;
  printTable(Object.entries(figures).map(([name, figure]) => [name, figure, unitOf(name)] as const));
  return figures;
}

const unitOf = (name: string) => (name.endsWith('_ms') ? 'ms' : name.endsWith('_kb') ? 'kB' : '');

async function onFarm(piles: number, measure: Part): Promise<Figures> {
  const { dataDir, remove } = await makeDataDir();
  const nowMs = Date.now();
  await layScaleFarm(dataDir, scaleProbes(piles * 4), nowMs);
  await layMinutes(dataDir, nowMs);
  const installation = await spawnInstallation(dataDir, { patienceMs: 600_000 });
  try {
    return await measure(installation);
  } finally {
    await installation.stop('SIGKILL');
    await remove();
  }
}
