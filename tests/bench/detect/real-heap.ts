/**
 * Forecasts on the real litter heap (tests/data), each made from what was known then; the same figures as on the simulated
 * piles, under `real_`.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ExpectedBand } from '../../../core/expect/band.ts';
import { expectedBand } from '../../../core/expect/expected-band.ts';
import type { PileSetup } from '../../../core/profiles/pile-setup.ts';
import { startJudge, stepJudge } from '../../../core/session/judge.ts';
import type { Act } from '../../../shared/contracts/domain/batch.ts';
import { stageLimits } from '../../../shared/stage.ts';
import { msPerHour } from '../../../shared/units.ts';

interface Row {
  readonly atMs: number;
  readonly coreC: number | null;
  readonly airC: number;
}

function readHeap(): Row[] {
  // The bench runs compiled from .build as well, so the table is found from where it is called: the root of the project.
  const text = readFileSync(join(process.cwd(), 'tests/data/litter-heap-2023-hourly.csv'), 'utf8');
  return text
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => {
      const cells = line.split(',');
      return { atMs: Date.parse(`${cells[0]}Z`), coreC: cells[4] ? Number(cells[4]) : null, airC: Number(cells[6]) };
    });
}

export function realHeap(): Record<string, number> {
  const rows = readHeap();
  const startMs = rows[0]?.atMs ?? 0;
  const covered: Act = { kind: 'covered', atMs: Date.parse('2023-09-04T10:20:00Z') };
  let setup: PileSetup = {
    stage: 'bran',
    startedAtMs: startMs,
    limits: stageLimits.bran,
    recipe: { material: 'other', depthM: 1.8, moistureFrac: 0.488, cover: 'open' },
    acts: [],
  };
  const state = startJudge(setup);
  const air: { atMs: number; tempC: number }[] = [];
  let band: ExpectedBand | null = null;
  let [forecast, persistence, trend, inside, count] = [0, 0, 0, 0, 0];
  rows.forEach(({ atMs, coreC, airC }, index) => {
    if (setup.acts.length === 0 && atMs >= covered.atMs) {
      setup = { ...setup, acts: [covered] };
      band = null;
    }
    if (band === null || index % 24 === 0) band = expectedBand(setup, air, atMs + 70 * msPerHour);
    air.push({ atMs, tempC: airC });
    stepJudge(state, setup, band, { position: 'air', quantity: 'temperature', value: airC, atMs });
    if (coreC === null) return;
    stepJudge(state, setup, band, { position: 'core', quantity: 'temperature', value: coreC, atMs });
    const later = rows[index + 12]?.coreC;
    const before = rows[index - 3]?.coreC;
    const said = state.ahead.forecast;
    if (index < 12 || index % 3 !== 0 || later == null || before == null || said === null) return;
    // The fan starts at the end of the hour that just closed, from its one reading, which is then an hour old.
    const [p10C, p50C, p90C] = [said.p10C[11] ?? 0, said.p50C[11] ?? 0, said.p90C[11] ?? 0];
    forecast += Math.abs(p50C - later);
    persistence += Math.abs(coreC - later);
    trend += Math.abs(coreC + 4 * (coreC - before) - later);
    inside += later >= p10C && later <= p90C ? 1 : 0;
    count += 1;
  });
  const round = (value: number): number => Math.round(value * 1000) / 1000;
  return {
    real_forecasts: count,
    real_forecast12h_mae_c: round(forecast / count),
    real_forecast12h_skill_persistence: round(1 - forecast / persistence),
    real_forecast12h_skill_trend: round(1 - forecast / trend),
    real_band_coverage: round(inside / count),
  };
}
