/** Fills the book and what waits with what a file holds, at opening. */
import type { Database } from 'better-sqlite3';
import { StoreError } from '../../errors.ts';
import type { Quantity } from '../../quantity.ts';
import type { FlushRounds } from './flush-rounds.ts';
import { unpack } from './inbox.ts';
import { KnownSeries, type SeriesBook } from './series-book.ts';

interface SeriesRow {
  id: number;
  site: string;
  probe: string;
  quantity: Quantity;
  first_at_ms: number | null;
  last_at_ms: number | null;
  last_value: number | null;
  settled_count: number;
  settled_through: number;
  horizon_ms: number;
}

interface InboxRow {
  batch: number;
  rows: Buffer;
}

interface Flushed {
  readonly series: KnownSeries;
  readonly throughBatch: number;
}

/** @throws {StoreError} when the inbox does not fit the series. */
export function load(db: Database, book: SeriesBook, rounds: FlushRounds): void {
  const byId = loadSeries(db, book);
  // Numbers of batches are never used twice, or a new batch could pass for one that is flushed.
  for (const { throughBatch } of byId.values()) rounds.newestBatch = Math.max(rounds.newestBatch, throughBatch);
  rounds.doneThroughBatch = rounds.newestBatch;
  for (const { batch, rows } of db.prepare<[], InboxRow>('SELECT * FROM inbox ORDER BY batch').iterate()) {
    rounds.doneThroughBatch = 0;
    rounds.newestBatch = Math.max(rounds.newestBatch, batch);
    rounds.count += putBack(batch, rows, byId);
  }
}

function loadSeries(db: Database, book: SeriesBook): Map<number, Flushed> {
  const byId = new Map<number, Flushed>();
  for (const row of db.prepare<[], SeriesRow>('SELECT * FROM series ORDER BY id').all()) {
    const series = new KnownSeries(row.site, row.probe, row.quantity);
    series.id = row.id;
    series.firstAtMs = row.first_at_ms ?? series.firstAtMs;
    series.lastAtMs = row.last_at_ms ?? series.lastAtMs;
    series.lastValue = row.last_value ?? series.lastValue;
    series.flushedLastAtMs = series.lastAtMs;
    series.flushedCount = row.settled_count;
    series.watermarkMs = row.horizon_ms;
    series.hasDownsampledRows = row.horizon_ms > 0; // a run may have been cut short
    book.add(series);
    byId.set(row.id, { series, throughBatch: row.settled_through });
  }
  return byId;
}

/** @returns how many readings of the batch wait; a crash within a round leaves batches that are flushed in part. */
function putBack(batch: number, rows: Buffer, byId: ReadonlyMap<number, Flushed>): number {
  const { atMs, values, seriesIds } = unpack(rows);
  let count = 0;
  for (let index = 0; index < atMs.length; index += 1) {
    const id = seriesIds[index] as number;
    const flushed = byId.get(id);
    if (flushed === undefined) throw new StoreError(`Cannot read a waiting batch as series ${id} must exist`);
    if (batch <= flushed.throughBatch) continue;
    flushed.series.keep(atMs[index] as number, values[index] as number);
    count += 1;
  }
  return count;
}
