/** Puts into the rollups what another store had downsampled of one series. */

import type { Database } from 'better-sqlite3';
import type { Downsampled } from '../readings-store.ts';
import { addSeriesSql } from './schema.ts';
import type { KnownSeries } from './series-book.ts';
import { tierLengthsMs, toMiddleMs } from './tiers.ts';

/** @param series New to the file when it has no id yet. */
export function takeDownsampled(db: Database, series: KnownSeries, downsampled: Downsampled): void {
  const { watermarkMs, standIns, firstAtMs, last } = downsampled;
  const isNewer = last.atMs > series.lastAtMs;
  const after = {
    firstAtMs: Math.min(series.firstAtMs, firstAtMs),
    lastAtMs: isNewer ? last.atMs : series.lastAtMs,
    lastValue: isNewer ? last.value : series.lastValue,
    watermarkMs: Math.max(series.watermarkMs, watermarkMs),
  };
  db.transaction(() => {
    const id = series.id === 0 ? addSeries(db, series) : series.id;
    const put = db.prepare('INSERT OR REPLACE INTO rollup VALUES (0, ?, ?, ?, ?, ?, ?)');
    for (const { atMs, value, standsFor } of standIns) {
      if (standsFor === undefined) continue;
      const { count, min, max } = standsFor;
      put.run(id, atMs - toMiddleMs, count, min, max, value * count);
    }
    for (const [tier, lengthMs] of tierLengthsMs.entries()) if (tier > 0) rollUp(db, id, tier, lengthMs, watermarkMs);
    db.prepare('UPDATE series SET first_at_ms = ?, last_at_ms = ?, last_value = ?, horizon_ms = ? WHERE id = ?').run(
      after.firstAtMs,
      after.lastAtMs,
      after.lastValue,
      after.watermarkMs,
      id,
    );
    db.prepare('UPDATE thinning SET horizon_ms = max(horizon_ms, ?)').run(watermarkMs);
    series.id = id;
  }).immediate();
  Object.assign(series, after);
  series.flushedLastAtMs = Math.max(series.flushedLastAtMs, after.lastAtMs);
  series.hasDownsampledRows = true;
}

function addSeries(db: Database, { site, probe, quantity }: KnownSeries): number {
  const add = db.prepare(addSeriesSql);
  return Number(add.run(site, probe, quantity).lastInsertRowid);
}

/** A coarse rollup never reaches over a watermark, so the finest ones before it make it up whole. */
function rollUp(db: Database, id: number, tier: number, lengthMs: number, watermarkMs: number): void {
  db.prepare(`
    INSERT OR REPLACE INTO rollup
    SELECT ?, series_id, at_ms / ${lengthMs} * ${lengthMs} AS start_ms, sum(n), min(min), max(max), sum(sum)
    FROM rollup WHERE tier = 0 AND series_id = ? AND at_ms < ? GROUP BY start_ms
  `).run(tier, id, watermarkMs);
}
