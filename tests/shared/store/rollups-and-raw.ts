/** Looks into a closed readings file: do its rollups say what its rows say? */

import { tierLengthsMs } from '../../../shared/store/readings/tiers.ts';
import Database from '../../../shared/store/sqlite-driver.ts';

interface RollupRow {
  tier: number;
  series_id: number;
  at_ms: number;
  n: number;
  min: number;
  max: number;
  sum: number;
}

/** The rollups a flushed file holds, and what grouping its raw rows gives. */
export function rollupsAndRaw(path: string): { rollups: RollupRow[]; fromRaw: RollupRow[]; waiting: number } {
  const db = new Database(path, { readonly: true });
  try {
    const rollups = db.prepare<[], RollupRow>('SELECT * FROM rollup ORDER BY tier, series_id, at_ms').all();
    const group = db.prepare<[number, number, number], RollupRow>(`
      SELECT CAST(? AS INTEGER) AS tier, series_id, at_ms / CAST(? AS INTEGER) * CAST(? AS INTEGER) AS at_ms, count(*) AS n, min(value) AS min, max(value) AS max, sum(value) AS sum
      FROM reading GROUP BY 2, 3 ORDER BY 2, 3`);
    const fromRaw = tierLengthsMs.flatMap((lengthMs, tier) => group.all(tier, lengthMs, lengthMs));
    return { rollups, fromRaw, waiting: Number(db.prepare('SELECT count(*) FROM inbox').pluck().get()) };
  } finally {
    db.close();
  }
}
