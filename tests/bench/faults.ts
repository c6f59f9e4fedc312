/**
 * `npm run bench -- faults`: one thing after the other goes wrong, and nothing may be lost for it.
 *
 * Options: nothing, or `single` or `servers` for one server only; BRANHEARTH_BENCH_FAULTS="disk" makes
 * only the faults that have it in their name. Loopback only; seeded; a few minutes.
 * Figures: per fault how long a probe waited for an acknowledgement at most, how soon after it pages answered again and
 * everything measured until then was kept, readings lost and twice;
 * at the end alarms that the truth requires and nobody was notified of, or more than once.
 * It never asks for a fault where this machine cannot make it: it says so instead.
 */
import { fastClock } from '../../shared/clock.ts';
import { hasTestInflux } from '../helpers/given-influx.ts';
import { hasMosquitto } from '../helpers/mosquitto.ts';
import { hasPostgres } from '../helpers/postgres.ts';
import { until } from '../helpers/until.ts';
import { examineAlarms, examineReadings, type NotifiedAlarm } from './faults/examine.ts';
import { type FaultInstallation, seconds, serverSpeed } from './faults/fault-server.ts';
import { type KeepingProbes, startProbes } from './faults/keeping-probes.ts';
import { layPiles, pagesOf } from './faults/pages.ts';
import { seeded } from './faults/seeded.ts';
import { openServerInstallation } from './faults/several-processes.ts';
import { openSingleProcess } from './faults/single-process.ts';
import { probesOf, type TruePile, type TrueProbe, truePiles } from './faults/truth.ts';
import { sum } from './table.ts';

const seed = 20_310_401;
/** Piles that never heat, of which nobody may be told. */
const calmPiles = 3;
const patienceMs = 90_000;
const alarmPatienceMs = 120_000;

export async function run(only = ''): Promise<Record<string, number>> {
  const installations: ((clock: string) => Promise<FaultInstallation>)[] = [];
  if (only !== 'servers') installations.push(openSingleProcess);
  if (only !== 'single') {
    if (hasTestInflux && hasMosquitto && hasPostgres) installations.push(openServerInstallation);
    else console.warn('*** SKIPPED: an installation on servers needs PostgreSQL, InfluxDB 1.6 and Mosquitto ***');
  }
  const sums: Record<string, number> = { readings: 0, faults: 0, lost: 0, twice: 0, alarms: 0 };
  for (const open of installations) {
    for (const [name, figure] of Object.entries(await runInstallation(open))) sums[name] = (sums[name] ?? 0) + figure;
  }
  return sums;
}

async function runInstallation(open: (clock: string) => Promise<FaultInstallation>): Promise<Record<string, number>> {
  const nowMs = Date.now();
  const setting = { startMs: nowMs, anchorMs: nowMs, speed: serverSpeed };
  const clock = fastClock(setting);
  const installation = await open(JSON.stringify(setting));
  const faults = installation.faults.filter(({ name }) => name.includes(process.env.BRANHEARTH_BENCH_FAULTS ?? ''));
  const piles = truePiles(faults.length + calmPiles);
  const truth = probesOf(piles);
  let probes: KeepingProbes | undefined;
  try {
    const pages = pagesOf(() => installation.pagesUrl());
    await until('the broker', async () => ((await pages.health()).parts.broker.state === 'ok' ? true : undefined));
    await pages.addSites(piles);
    probes = startProbes(installation.mqttUrl, truth, clock, seeded(seed));
    await layPiles(pages, truth, clock.nowMs() - 3_600_000);
    await seconds(2);

    const rows: Record<string, string | number>[] = [];
    let done = 0;
    for (const [index, fault] of faults.entries()) {
      probes.during(index);
      const pile = piles[index];
      if (pile) pile.heatedAtMs = clock.nowMs();
      console.log(`${installation.name}: ${fault.name}`);
      await seconds(4); // heated, and its hold begun
      const outcome = fault.run(probes);
      if (typeof outcome === 'string') {
        if (pile) pile.heatedAtMs = null;
        console.warn(`*** SKIPPED: ${fault.name}: ${outcome} ***`);
        rows.push({ fault: fault.name, 'acks stood still [s]': 'not done' });
        continue;
      }
      await outcome;
      done += 1;
      const overMs = performance.now();
      const sinceOver = (came: boolean) => (came ? round1((performance.now() - overMs) / 1_000) : 'never');
      const [answered, kept] = await Promise.all([
        answering(pages).then(sinceOver),
        allKept(installation, truth, clock.nowMs()).then(sinceOver),
      ]);
      rows.push({
        fault: fault.name,
        'acks stood still [s]': round1(probes.longestPauseS()),
        'pages back after [s]': answered,
        'all kept after [s]': kept,
      });
    }
    await allTold(piles, pages.alarms);
    await probes.finish();
    await allKept(installation, truth, clock.nowMs());
    const alarms = await examineAlarms(piles, pages.alarms);
    const { made, sentTwice } = probes.counts();
    await installation.stop();
    const store = await installation.openReadings();
    const verdict = await examineReadings(store, truth, faults.length);
    await store.close();
    for (const [index, row] of rows.entries()) {
      Object.assign(row, { lost: verdict.lost[index] ?? 0, twice: verdict.twice[index] ?? 0 });
    }
    console.log(
      `\n${installation.name}: ${made} readings of ${truth.length} probes, ${sentTwice} sent twice on purpose; seed ${seed}`,
    );
    console.table(rows);
    return {
      readings: made,
      faults: done,
      lost: sum(verdict.lost),
      twice: sum(verdict.twice),
      alarms: piles.filter(({ heatedAtMs }) => heatedAtMs !== null).length,
      alarms_missing: alarms.missing,
      alarms_twice: alarms.twice,
      alarms_untrue: alarms.untrue,
    };
  } finally {
    await probes?.close();
    await installation.remove();
  }
}

/** Until pages tell of piles and probes, and not only that the process is there. */
async function answering(pages: ReturnType<typeof pagesOf>): Promise<boolean> {
  const look = () => Promise.all([pages.lasts(), pages.piles()]).catch(() => undefined);
  return until('the pages to answer', look, patienceMs).then(
    () => true,
    () => false,
  );
}

/** Until what each probe measured by `asOfMs` is kept. */
async function allKept(installation: FaultInstallation, truth: readonly TrueProbe[], asOfMs: number): Promise<boolean> {
  const wanted = truth.map(({ pile, probe, made }) => ({
    key: `${pile.site}/${probe}`,
    atMs: made.findLast(({ atMs }) => atMs <= asOfMs)?.atMs ?? 0,
  }));
  const look = async () => {
    const kept = await installation.kept().catch(() => new Map<string, number>());
    return wanted.every(({ key, atMs }) => (kept.get(key) ?? 0) >= atMs) || undefined;
  };
  return until('everything to be kept', look, patienceMs).catch(() => false);
}

/** Waits while there is one missing; what is missing then is counted later. */
async function allTold(piles: readonly TruePile[], alarmsOf: (id: string) => Promise<NotifiedAlarm[]>): Promise<void> {
  const look = async () => ((await examineAlarms(piles, alarmsOf)).missing === 0 ? true : undefined);
  await until('every alarm', look, alarmPatienceMs).catch(() => undefined);
}

const round1 = (value: number) => Math.round(value * 10) / 10;
