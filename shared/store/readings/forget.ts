/**
 * Takes whole series away: first out of every answer, in one transaction, then their rows, a step at a time. Cut short,
 * the rest of the rows goes with the next steps, also after a restart.
 */
import type { Database, Statement } from 'better-sqlite3';
import type { ForgetStep } from '../readings-store.ts';
import type { FlushRounds } from './flush-rounds.ts';
import type { KnownSeries, SeriesBook } from './series-book.ts';
import { tierLengthsMs } from './tiers.ts';

const endOfTimeMs = Number.MAX_SAFE_INTEGER;

export class Forgetter {
  readonly #db: Database;
  readonly #book: SeriesBook;
  readonly #rounds: FlushRounds;
  readonly #note: Statement<[number]>;
  readonly #removeSeries: Statement<[number]>;
  readonly #next: Statement<[], number>;
  readonly #removeRows: Statement<[{ id: number; rows: number }]>;
  readonly #removeRollups: Statement<[{ id: number; tier: number; rows: number }]>;
  readonly #isDone: Statement<[number]>;

  constructor(db: Database, book: SeriesBook, rounds: FlushRounds) {
    this.#db = db;
    this.#book = book;
    this.#rounds = rounds;
    this.#note = db.prepare('INSERT INTO forgotten VALUES (?)');
    this.#removeSeries = db.prepare('DELETE FROM series WHERE id = ?');
    this.#next = db.prepare<[], number>('SELECT series_id FROM forgotten LIMIT 1').pluck();
    this.#removeRows = db.prepare(
      `DELETE FROM reading WHERE series_id = @id AND at_ms <= coalesce(
        (SELECT at_ms FROM reading WHERE series_id = @id ORDER BY at_ms LIMIT 1 OFFSET @rows - 1), ${endOfTimeMs})`,
    );
    this.#removeRollups = db.prepare(
      `DELETE FROM rollup WHERE tier = @tier AND series_id = @id AND at_ms <= coalesce(
        (SELECT at_ms FROM rollup WHERE tier = @tier AND series_id = @id ORDER BY at_ms LIMIT 1 OFFSET @rows - 1),
        ${endOfTimeMs})`,
    );
    this.#isDone = db.prepare('DELETE FROM forgotten WHERE series_id = ?');
  }

  /** No answer holds anything of these from now on. When it throws, all of them are still there. */
  hide(series: readonly KnownSeries[]): void {
    if (series.length === 0) return;
    // Batches in the inbox name their series, so none of these may stand in one any more.
    this.#rounds.finish();
    this.#db
      .transaction(() => {
        for (const { id } of series) {
          this.#note.run(id);
          this.#removeSeries.run(id);
        }
      })
      .immediate();
    this.#book.remove(new Set(series));
  }

  /** Takes away at most `rows` rows of what is hidden. */
  step(rows: number): ForgetStep {
    return this.#db
      .transaction(() => {
        let removed = 0;
        for (let id = this.#next.get(); id !== undefined; id = this.#next.get()) {
          removed += this.#removeSome(id, rows - removed);
          if (removed >= rows) return { removed, done: false };
          this.#isDone.run(id);
        }
        return { removed, done: true };
      })
      .immediate();
  }

  #removeSome(id: number, rows: number): number {
    let removed = this.#removeRows.run({ id, rows }).changes;
    for (const tier of tierLengthsMs.keys()) {
      if (removed < rows) removed += this.#removeRollups.run({ id, tier, rows: rows - removed }).changes;
    }
    return removed;
  }
}
