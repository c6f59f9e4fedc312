import type Database from '../sqlite-driver.ts';
import type { FlushRounds } from './flush-rounds.ts';
import type { Intake } from './intake.ts';
import { addSeriesSql } from './schema.ts';

/** One commit: series not known before, and the batch that waits in the intake. Prepared once, run with each batch. */
export function prepareCommit(db: Database.Database, intake: Intake, rounds: FlushRounds): () => void {
  const addSeries = db.prepare(addSeriesSql);
  const addBatch = db.prepare('INSERT INTO inbox (batch, rows) VALUES (?, ?)');
  return db.transaction(() => {
    for (const series of intake.newSeries) {
      series.id = Number(addSeries.run(series.site, series.probe, series.quantity).lastInsertRowid);
    }
    addBatch.run(rounds.newestBatch + 1, intake.pack());
  }).immediate;
}
