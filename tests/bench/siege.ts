/**
 * `npm run bench -- siege [attack]`: the built program under all attacks at once, or one of them,
 * while another process asks /api/health forty times a second.
 *
 * Options: BRANHEARTH_BENCH_SIEGE_S for another length than thirty seconds.
 * Figures: how long health took [ms] before, during and after, and what came of each attack. Everything is bounded in count
 * and time, and stays on loopback.
 */
import { fork } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { attacks, type Counts } from './siege/attacks.ts';
import { openBesieged } from './siege/besieged.ts';
import type { SteadyFigures } from './siege/steady-client.ts';

const siegeS = Number(process.env.BRANHEARTH_BENCH_SIEGE_S ?? 30);
const calmS = 10;
const aimMs = 250;

const shareOf = (sorted: readonly number[], share: number) =>
  Math.round((sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN) * 10) / 10;

function sums({ tookMs, failed }: SteadyFigures) {
  return {
    asked: tookMs.length,
    failed,
    p50: shareOf(tookMs, 0.5),
    p99: shareOf(tookMs, 0.99),
    max: shareOf(tookMs, 1),
  };
}

export async function run(part?: string): Promise<Record<string, number | readonly number[]>> {
  const chosen = Object.entries(attacks).filter(([name]) => part === undefined || name === part);
  if (chosen.length === 0) throw new Error(`no such attack: ${part}; there are ${Object.keys(attacks).join(', ')}`);
  const { dataDir, remove } = await makeDataDir();
  const besieged = await openBesieged(dataDir);
  const steady = fork(fileURLToPath(new URL('./siege/steady-client.js', import.meta.url)), [
    `${besieged.pagesUrl}/api/health`,
  ]);
  const figures = async () => {
    steady.send('figures');
    const [said] = (await once(steady, 'message')) as [SteadyFigures];
    return sums(said);
  };
  try {
    await pause(1_000);
    await figures(); // the first ones find everything cold
    await pause(calmS * 1_000);
    const calm = await figures();
    const endMs = performance.now() + siegeS * 1_000;
    const goesOn = () => performance.now() < endMs && besieged.installation.child.exitCode === null;
    const counts: Record<string, Counts> = {};
    const under = chosen.map(async ([name, attack]) => {
      const own: Counts = {};
      counts[name] = own;
      await attack(besieged, goesOn, own).catch(() => {
        own['broke off'] = (own['broke off'] ?? 0) + 1;
      });
    });
    while (goesOn()) await pause(100);
    const siege = await figures();
    await Promise.all(under);
    await pause(calmS * 1_000);
    const after = await figures();
    console.log(`${chosen.map(([name]) => name).join(', ')}: ${siegeS} s; /api/health [ms]`);
    console.table({ calm, siege, after });
    console.table(counts);
    const died = besieged.installation.child.exitCode !== null ? 1 : 0;
    console.log(died ? 'the server ended' : `p99 under siege ${siege.p99} ms, aim ${aimMs} ms`);
    return {
      siege_s: siegeS,
      calm_p50_ms: calm.p50,
      calm_p99_ms: calm.p99,
      calm_max_ms: calm.max,
      siege_asked: siege.asked,
      siege_failed: siege.failed,
      siege_p50_ms: siege.p50,
      siege_p99_ms: siege.p99,
      siege_max_ms: siege.max,
      after_p99_ms: after.p99,
      after_failed: after.failed,
      server_ended: died,
    };
  } finally {
    steady.kill();
    await besieged.installation.stop('SIGKILL');
    await remove();
  }
}
