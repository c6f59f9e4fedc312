/** Makes the batch of the first pile one of 14 days, with a reading a minute in each of its places. */
import { join } from 'node:path';
import { openSqliteReadings } from '../../../shared/store/readings/sqlite-readings.ts';
import Database from '../../../shared/store/sqlite-driver.ts';
import { msPerDay, msPerHour, msPerMinute } from '../../../shared/units.ts';
import { scaleProbes, tempAtC } from '../scale/scale-farm.ts';

const days = 14;

export async function layMinutes(dataDir: string, nowMs: number): Promise<void> {
  const laidMs = Math.floor(nowMs / msPerHour) * msPerHour - days * msPerDay;
  const db = new Database(join(dataDir, 'journal.db'));
  db.prepare(`UPDATE batch SET started_at_ms = ? WHERE pile_id = 'pile-0'`).run(laidMs);
  db.prepare(`UPDATE claim SET from_ms = ? WHERE pile_id = 'pile-0'`).run(laidMs);
  db.close();
  const store = openSqliteReadings(join(dataDir, 'readings.db'));
  for (const { site, probe, position } of scaleProbes(4)) {
    const readings = Array.from({ length: (days * msPerDay) / msPerMinute }, (_, minute) => ({
      ...{ site, probe, quantity: 'temperature' as const, value: tempAtC(position, minute / 60) },
      atMs: laidMs + minute * msPerMinute + 7,
    }));
    for (let first = 0; first < readings.length; first += 5_000)
      await store.append(readings.slice(first, first + 5_000));
  }
  await store.close();
}
