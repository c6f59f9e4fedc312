/** Raw readings of several series as one stream by time, a page at a time. */
import type { Database } from 'better-sqlite3';
import type { KeptReading } from '../readings-store.ts';
import type { KnownSeries } from './series-book.ts';
import { toMiddleMs } from './tiers.ts';
import { firstFrom } from './waiting.ts';

type Row = [atMs: number, value: number, count?: number, min?: number, max?: number];

const rowsSql = 'SELECT at_ms, value FROM reading WHERE series_id = ? AND at_ms >= ? AND at_ms < ? ORDER BY at_ms';
// Sums round, so that the mean of equal values could come out a hair beside them.
const standInsSql = `
  SELECT at_ms + ${toMiddleMs}, min(max, max(min, sum / n)), n, min, max FROM rollup
  WHERE tier = 0 AND series_id = ? AND at_ms >= ? AND at_ms < ? ORDER BY at_ms`;

/** @returns at most `limit` readings, fewer where a time would be split; more only when a single time has more. */
export function mergeRows(
  db: Database,
  series: readonly KnownSeries[],
  fromMs: number,
  toMs: number,
  limit: number,
): KeptReading[] {
  const cursors = series.map((one) => new Cursor(flushedRows(db, one, fromMs, toMs), one, fromMs, toMs));
  try {
    return fillPage(cursors, limit);
  } finally {
    for (const cursor of cursors) cursor.close();
  }
}

/** Stand-ins first, then what was never downsampled. */
function* flushedRows(
  db: Database,
  { id, watermarkMs }: KnownSeries,
  fromMs: number,
  toMs: number,
): Generator<Row, undefined> {
  if (fromMs < watermarkMs) {
    const standIns = db.prepare<[number, number, number], Row>(standInsSql).raw();
    yield* standIns.iterate(id, fromMs - toMiddleMs, Math.min(toMs - toMiddleMs, watermarkMs));
  }
  if (toMs <= watermarkMs) return;
  yield* db.prepare<[number, number, number], Row>(rowsSql).raw().iterate(id, Math.max(fromMs, watermarkMs), toMs);
}

function fillPage(cursors: readonly Cursor[], limit: number): KeptReading[] {
  const page: KeptReading[] = [];
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

/** Walks one series by time, over its flushed and its waiting readings at once. */
class Cursor {
  readonly #series: KnownSeries;
  readonly #flushed: Generator<Row, undefined>;
  readonly #toMs: number;
  readonly #waiting: ReturnType<KnownSeries['waiting']['sorted']>;
  #index: number;
  #flushedRow: Row | undefined;
  /** Time of the reading it stands at; Infinity at the end. */
  atMs = Number.POSITIVE_INFINITY;
  #value = 0;
  #standsFor: KeptReading['standsFor'];

  constructor(flushed: Generator<Row, undefined>, series: KnownSeries, fromMs: number, toMs: number) {
    this.#series = series;
    this.#toMs = toMs;
    this.#waiting = series.waiting.sorted();
    this.#index = firstFrom(this.#waiting.atMs, fromMs);
    this.#flushed = flushed;
    this.#flushedRow = this.#nextFlushed();
    this.step();
  }

  reading(): KeptReading {
    const { site, probe, quantity } = this.#series;
    const reading = { site, probe, quantity, atMs: this.atMs, value: this.#value };
    return this.#standsFor === undefined ? reading : { ...reading, standsFor: this.#standsFor };
  }

  step(): void {
    const flushedAtMs = this.#flushedRow?.[0] ?? Number.POSITIVE_INFINITY;
    const waitingAtMs = this.#waiting.atMs[this.#index] ?? Number.POSITIVE_INFINITY;
    if (this.#flushedRow !== undefined && flushedAtMs < waitingAtMs) {
      const [atMs, value, count, min, max] = this.#flushedRow;
      this.atMs = atMs;
      this.#value = value;
      this.#standsFor = count === undefined ? undefined : { count, min: min ?? value, max: max ?? value };
      this.#flushedRow = this.#nextFlushed();
    } else if (waitingAtMs < this.#toMs) {
      this.atMs = waitingAtMs;
      this.#standsFor = undefined;
      this.#value = this.#waiting.values[this.#index] as number;
      this.#index += 1;
    } else {
      this.atMs = Number.POSITIVE_INFINITY;
    }
  }

  #nextFlushed(): Row | undefined {
    const next = this.#flushed.next();
    return next.done === true ? undefined : next.value;
  }

  close(): void {
    this.#flushed.return(undefined);
  }
}
