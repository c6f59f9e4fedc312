/**
 * The tables of the embedded readings store, as numbered steps forwards. It never goes back, or touches a file that a
 * later version wrote.
 */
import type { Database } from 'better-sqlite3';
import { StoreError } from '../../errors.ts';

/** Step n brings a file from version n to n + 1. A step that was released is never edited again. */
export const steps: readonly string[] = [
  `
  CREATE TABLE series (
    id              INTEGER PRIMARY KEY,
    site            TEXT NOT NULL,
    probe           TEXT NOT NULL,
    quantity        TEXT NOT NULL,
    -- Of the settled readings; all NULL while every reading still waits in the inbox.
    first_at_ms     INTEGER,
    last_at_ms      INTEGER,
    last_value      REAL,
    settled_count   INTEGER NOT NULL DEFAULT 0,
    -- Readings of this series wait only in batches after this one.
    settled_through INTEGER NOT NULL DEFAULT 0,
    UNIQUE (site, probe, quantity)
  );
  -- Batches as they came, waiting to be settled into the two tables below; see inbox.ts for the packing.
  CREATE TABLE inbox (
    batch INTEGER PRIMARY KEY,
    rows  BLOB NOT NULL
  );
  CREATE TABLE reading (
    series_id INTEGER NOT NULL,
    at_ms     INTEGER NOT NULL,
    value     REAL NOT NULL,
    PRIMARY KEY (series_id, at_ms)
  ) WITHOUT ROWID;
  -- One row per tier (see tiers.ts), series and stretch of time that has readings.
  CREATE TABLE rollup (
    tier      INTEGER NOT NULL,
    series_id INTEGER NOT NULL,
    at_ms     INTEGER NOT NULL,
    n         INTEGER NOT NULL,
    min       REAL NOT NULL,
    max       REAL NOT NULL,
    sum       REAL NOT NULL,
    PRIMARY KEY (tier, series_id, at_ms)
  ) WITHOUT ROWID;
  -- Filled and emptied to find out whether a batch could be written; see sqlite-readings.ts.
  CREATE TABLE pulse (filler BLOB NOT NULL);
  `,
  `
  -- Before this a series has rollups only, or will soon; see thin.ts.
  ALTER TABLE series ADD COLUMN horizon_ms INTEGER NOT NULL DEFAULT 0;
  -- One row: the newest time that downsampling was brought to.
  CREATE TABLE thinning (horizon_ms INTEGER NOT NULL);
  INSERT INTO thinning VALUES (0);
  `,
  `
  -- Series that are gone and whose rows still have to go; see forget.ts.
  CREATE TABLE forgotten (series_id INTEGER PRIMARY KEY);
  `,
];

/** Above every id whose rows may still be there: the highest is free again once its series is forgotten. */
export const addSeriesSql = `INSERT INTO series (id, site, probe, quantity) VALUES (1 + max(
  coalesce((SELECT max(id) FROM series), 0), coalesce((SELECT max(series_id) FROM forgotten), 0)), ?, ?, ?)`;

/** @returns how many of the steps it has been through. @throws {StoreError} when a later version wrote the file. */
export function stepsOf(db: Database): number {
  const from = Number(db.pragma('user_version', { simple: true }));
  if (from <= steps.length) return from;
  throw new StoreError(
    `Cannot open ${db.name} as its tables must be of this program or earlier: a later one wrote them (${from}, this one knows ${steps.length}); install that version again, or put back a backup of before its update`,
  );
}

/** @throws {StoreError} when a later version wrote the file. */
export function migrate(db: Database, to: number = steps.length): void {
  const from = stepsOf(db);
  for (let version = from; version < to; version += 1) {
    const step = steps[version];
    if (step === undefined) throw new RangeError(`Cannot migrate to ${to} as there are ${steps.length} steps`);
    db.transaction(() => {
      db.exec(step);
      db.pragma(`user_version = ${version + 1}`);
    }).immediate();
  }
}
