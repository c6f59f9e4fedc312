/**
 * shared/store/readings/merge-rows.ts: raw readings of several series as one stream by time, a page at a time.
 *
 * Takes:  series, settled and waiting, and a range of time.
 * Gives:  pages that never end in the middle of a time.
 */
import type { Database, Statement } from 'better-sqlite3';
import type { Reading } from '../../reading.ts';
import type { KnownSeries } from './series-book.ts';
import { firstFrom } from './waiting.ts';

type Row = [atMs: number, value: number];

const rowsSql = 'SELECT at_ms, value FROM reading WHERE series_id = ? AND at_ms >= ? AND at_ms < ? ORDER BY at_ms';

/** @returns at most `limit` readings, fewer where a time would be split; more only when a single time has more. */
export function mergeRows(
  db: Database,
  series: readonly KnownSeries[],
  fromMs: number,
  toMs: number,
  limit: number,
): Reading[] {
  const cursors = series.map((one) => new Cursor(db.prepare(rowsSql), one, fromMs, toMs));
  try {
    return fillPage(cursors, limit);
  } finally {
    for (const cursor of cursors) cursor.close();
  }
}

function fillPage(cursors: readonly Cursor[], limit: number): Reading[] {
  const page: Reading[] = [];
  for (;;) {
    const next = earliest(cursors);
    if (next === undefined) return page;
    const lastAtMs = page.at(-1)?.atMs;
    if (page.length >= limit) {
      if (next.atMs !== lastAtMs) return page;
      if (page[0]?.atMs !== lastAtMs) return page.filter((reading) => reading.atMs !== lastAtMs);
    }
    page.push(next.reading());
    next.step();
  }
}

function earliest(cursors: readonly Cursor[]): Cursor | undefined {
  let found: Cursor | undefined;
  for (const cursor of cursors) {
    if (cursor.atMs < (found?.atMs ?? Number.POSITIVE_INFINITY)) found = cursor;
  }
  return found;
}

/** Walks one series by time, over its settled and its waiting readings at once. */
class Cursor {
  readonly #series: KnownSeries;
  readonly #settled: IterableIterator<Row>;
  readonly #toMs: number;
  readonly #waiting: ReturnType<KnownSeries['waiting']['sorted']>;
  #place: number;
  #settledRow: Row | undefined;
  /** Time of the reading it stands at; Infinity at the end. */
  atMs = Number.POSITIVE_INFINITY;
  #value = 0;

  constructor(select: Statement, series: KnownSeries, fromMs: number, toMs: number) {
    this.#series = series;
    this.#toMs = toMs;
    this.#waiting = series.waiting.sorted();
    this.#place = firstFrom(this.#waiting.atMs, fromMs);
    this.#settled = select.raw().iterate(series.id, fromMs, toMs) as IterableIterator<Row>;
    this.#settledRow = this.#nextSettled();
    this.step();
  }

  reading(): Reading {
    const { site, probe, quantity } = this.#series;
    return { site, probe, quantity, atMs: this.atMs, value: this.#value };
  }

  step(): void {
    const settledAtMs = this.#settledRow?.[0] ?? Number.POSITIVE_INFINITY;
    const waitingAtMs = this.#waiting.atMs[this.#place] ?? Number.POSITIVE_INFINITY;
    if (this.#settledRow !== undefined && settledAtMs < waitingAtMs) {
      [this.atMs, this.#value] = this.#settledRow;
      this.#settledRow = this.#nextSettled();
    } else if (waitingAtMs < this.#toMs) {
      this.atMs = waitingAtMs;
      this.#value = this.#waiting.values[this.#place] as number;
      this.#place += 1;
    } else {
      this.atMs = Number.POSITIVE_INFINITY;
    }
  }

  #nextSettled(): Row | undefined {
    const next = this.#settled.next();
    return next.done === true ? undefined : next.value;
  }

  close(): void {
    this.#settled.return?.();
  }
}
