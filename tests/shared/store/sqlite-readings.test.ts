import { statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { StoreError } from '../../../shared/errors.ts';
import type { Reading } from '../../../shared/reading.ts';
import { migrate } from '../../../shared/store/readings/schema.ts';
import {
  openSqliteReadings,
  SqliteReadings,
  type SqliteReadingsOptions,
} from '../../../shared/store/readings/sqlite-readings.ts';
import Database from '../../../shared/store/sqlite-driver.ts';
import { arbitraryBatches, arbitraryTrickle, beginMs, bounded, dayMs, site } from './arbitrary-readings.ts';
import { ReadingsModel } from './readings-model.ts';
import {
  arbitraryQuestion,
  downsampleWhole,
  expectSameAnswers,
  type Question,
  readingsStoreContract,
} from './readings-store-contract.ts';
import { rollupsAndRaw } from './rollups-and-raw.ts';
import { copyAsAfterCrash, scratchFolder } from './scratch.ts';

// Flushed after every few readings, so that answers come from waiting readings, raw rows and rollups at once.
const often = { flushAt: 16, flushRows: 6, downsampleRows: 7 };

readingsStoreContract('SQLite readings in memory', async () => ({
  store: openSqliteReadings(':memory:', often),
}));

readingsStoreContract('SQLite readings in a file', async () => {
  const path = join(scratchFolder(), 'readings.db');
  let store = openSqliteReadings(path, often);
  return {
    store,
    reopen: async () => {
      await store.close();
      store = openSqliteReadings(path, often);
      return store;
    },
  };
});

const reading = (minute: number, value = 20, probe = 'bran-core'): Reading => ({
  site,
  probe,
  quantity: 'temperature',
  atMs: beginMs + minute * 60_000,
  value,
});

const minutes = (from: number, count: number, probe = 'bran-core'): Reading[] =>
  Array.from({ length: count }, (_, index) => reading(from + index, ((from + index) % 160) / 4, probe));

describe('rollups', () => {
  const arbitraryOptions = fc.record({
    flushAt: fc.integer({ min: 1, max: 60 }),
    flushRows: fc.integer({ min: 1, max: 20 }),
  });
  const arbitraryCrashes = fc.array(fc.boolean(), { minLength: 60, maxLength: 60 });

  /** Keeps the batches, crashing after some of them, and compares everything with the model and with itself. */
  async function keepAndCompare(
    batches: readonly Reading[][],
    crashes: readonly boolean[],
    options: SqliteReadingsOptions,
    question: Question,
  ): Promise<void> {
    const folder = scratchFolder();
    let path = join(folder, 'readings-0.db');
    let store = openSqliteReadings(path, options);
    const model = new ReadingsModel();
    for (const [index, batch] of batches.entries()) {
      expect([...(await store.append(batch)).outcomes]).toEqual(model.append(batch));
      if (!crashes[index]) continue;
      const copy = copyAsAfterCrash(path, join(folder, `readings-${index + 1}.db`));
      await store.close();
      path = copy;
      store = openSqliteReadings(path, options);
    }
    await expectSameAnswers(store, model, question);
    await store.close();
    const { rollups, fromRaw, waiting } = rollupsAndRaw(path);
    expect(rollups).toEqual(fromRaw);
    expect(waiting).toBe(0);
    expect(rollups.reduce((sum, row) => sum + (row.tier === 0 ? row.n : 0), 0)).toBe(model.count);
  }

  test('equal the grouped raw rows for any order, duplicates, batches and crashes', async () => {
    await fc.assert(
      fc.asyncProperty(arbitraryBatches, arbitraryCrashes, arbitraryOptions, arbitraryQuestion, keepAndCompare),
      { seed: 20310401, numRuns: 50, ...bounded },
    );
  });

  test('equal them when a round of flushing is caught in the middle by what comes in, and by crashes', async () => {
    const fewCrashes = arbitraryCrashes.map((all) => all.map((crash, index) => crash && index % 5 === 0));
    const shortSteps = fc.record({ flushAt: fc.integer({ min: 5, max: 20 }), flushRows: fc.constant(1) });
    await fc.assert(fc.asyncProperty(arbitraryTrickle, fewCrashes, shortSteps, arbitraryQuestion, keepAndCompare), {
      seed: 20310406,
      numRuns: 50,
      ...bounded,
    });
  });

  test('take a reading that comes after its stretch was flushed', async () => {
    const path = join(scratchFolder(), 'readings.db');
    const store = openSqliteReadings(path, { flushAt: 10 });
    await store.append(minutes(0, 60).filter((_, minute) => minute !== 7));
    await store.append([reading(7, 99), ...minutes(60, 10)]);
    await store.close();
    const { rollups, fromRaw } = rollupsAndRaw(path);
    expect(rollups).toEqual(fromRaw);
    expect(rollups[0]).toMatchObject({ tier: 0, n: 10, max: 99 });
  });
});

describe('openSqliteReadings()', () => {
  test('refuses a second writer in one line, and lets readers in', async () => {
    const path = join(scratchFolder(), 'readings.db');
    const store = openSqliteReadings(path);
    await store.append([reading(0)]);
    expect(() => openSqliteReadings(path)).toThrow(
      /^Cannot open .*readings\.db as only one program may write to it[^\n]*$/,
    );
    const reader = new Database(path, { readonly: true });
    expect(reader.prepare('SELECT count(*) FROM inbox').pluck().get()).toBe(1);
    reader.close();
    await store.close();
    await openSqliteReadings(path).close();
  });

  test('refuses a file that is no database, and lets go of it', async () => {
    const path = join(scratchFolder(), 'readings.db');
    writeFileSync(path, 'These are notes about bran, and no database at all. '.repeat(100));
    for (const _ of ['first', 'again'])
      expect(() => openSqliteReadings(path)).toThrow(/not a database of ours, or is damaged/);
  });

  test('refuses a file that a later version wrote', () => {
    const path = join(scratchFolder(), 'readings.db');
    const db = new Database(path);
    db.pragma('user_version = 99');
    db.close();
    expect(() => openSqliteReadings(path)).toThrow(
      /tables must be of this program or earlier: a later one wrote them \(99, this one knows \d+\); install that version again/,
    );
  });

  test('refuses a folder that is not there with a StoreError', () => {
    expect(() => openSqliteReadings(join(scratchFolder(), 'nowhere', 'readings.db'))).toThrow(StoreError);
  });

  test('keeps a commit through a power cut: full synchronisation', () => {
    const db = new Database(join(scratchFolder(), 'readings.db'));
    const store = new SqliteReadings(db);
    expect(db.pragma('synchronous', { simple: true })).toBe(2);
    expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
    return store.close();
  });
});

describe('append() when the disk is full', () => {
  /** A store whose file may not grow any more, until `makeRoom`. */
  function almostFull(options: { flushAt: number; pages: number }) {
    const db = new Database(join(scratchFolder(), 'readings.db'));
    const store = new SqliteReadings(db, options);
    const pageCount = Number(db.pragma('page_count', { simple: true }));
    db.pragma(`max_page_count = ${pageCount + options.pages}`);
    return { store, makeRoom: () => db.pragma('max_page_count = 1000000') };
  }

  test('rejects with a StoreError that keeps the cause, keeps nothing, and goes on when there is room', async () => {
    const { store, makeRoom } = almostFull({ flushAt: 100_000, pages: 4 });
    await store.append([reading(0)]);
    const batch = [...minutes(1, 5_000), ...minutes(0, 5_000, 'bran-top')];
    const failure = await store.append(batch).catch((error: unknown) => error);
    expect(failure).toBeInstanceOf(StoreError);
    expect((failure as StoreError).message).toMatch(/^Cannot keep 10000 readings as the disk is full/);
    expect((failure as StoreError).cause).toBeInstanceOf(Database.SqliteError);
    expect(await store.lasts()).toEqual([{ ...reading(0), firstAtMs: beginMs }]);
    expect((await store.size()).rows).toBe(1);

    makeRoom();
    await store.check();
    expect((await store.append(batch)).newCount).toBe(10_000);
    expect(await store.rows([reading(0)], 0, beginMs + 40 * dayMs, 20_000)).toEqual([reading(0), ...minutes(1, 5_000)]);
    await store.close();
  });

  test('forgets everything of the batch it could not keep: firsts, newests and what it looked up', async () => {
    const { store, makeRoom } = almostFull({ flushAt: 100_000, pages: 4 });
    await store.append([reading(10), reading(20)]);
    expect((await store.append([reading(15)])).newCount).toBe(1); // late, so waiting readings are looked up by time
    await expect(store.append([reading(5), reading(16), reading(30), ...minutes(100, 5_000)])).rejects.toThrow(
      StoreError,
    );
    expect(await store.lasts()).toEqual([{ ...reading(20), firstAtMs: reading(10).atMs }]);
    makeRoom();
    expect((await store.append([reading(16), reading(5), reading(20), reading(30)])).newCount).toBe(3);
    expect(await store.lasts()).toEqual([{ ...reading(30), firstAtMs: reading(5).atMs }]);
    await store.close();
  });

  test('check() tells of a disk that is still full, and of room as soon as there is some', async () => {
    const { store, makeRoom } = almostFull({ flushAt: 100_000, pages: 0 });
    await expect(store.append(minutes(0, 5_000))).rejects.toThrow(StoreError);
    await expect(store.check()).rejects.toThrow(/the disk is full/);
    makeRoom();
    await store.check();
    await store.close();
  });

  test('what waits is answered from while it cannot be flushed, and flushed when it can', async () => {
    const { store, makeRoom } = almostFull({ flushAt: 50, pages: 12 });
    let kept = 0;
    // as much as fits into the inbox; far more than there is room for twice
    for (; kept < 20_000; kept += 40) {
      const taken = await store.append(minutes(kept, 40)).catch(() => undefined);
      if (taken === undefined) break;
    }
    expect(kept).toBeGreaterThan(50);
    expect((await store.size()).rows).toBe(kept);
    expect(await store.rows([reading(0)], 0, beginMs + 40 * dayMs, 20_000)).toHaveLength(kept);
    makeRoom();
    expect((await store.append(minutes(kept, 40))).newCount).toBe(40);
    expect((await store.append(minutes(0, kept + 40))).duplicateCount).toBe(kept + 40);
    await store.close();
  });
});

test('append() goes on while flushing fails, tries it seldom, and rejects before too much waits', async () => {
  let failedSteps = 0;
  const db = new Database(join(scratchFolder(), 'readings.db'), {
    verbose: (sql) => {
      if (sql === 'ROLLBACK') failedSteps += 1;
    },
  });
  const store = new SqliteReadings(db, { flushAt: 100, flushRows: 50 });
  db.exec('ALTER TABLE rollup RENAME TO rollup_away');
  let kept = 0;
  let failure: unknown;
  for (; kept < 2_000 && failure === undefined; ) {
    await store.append(minutes(kept, 10)).then(
      () => {
        kept += 10;
      },
      (error: unknown) => {
        failure = error;
      },
    );
  }
  expect(kept).toBe(800);
  expect((failure as StoreError).message).toMatch(/^Cannot flush some of 800 readings/);
  // the first at 100, then one for each 25 more; 71 batches came since
  expect(failedSteps).toBeGreaterThan(20);
  expect(failedSteps).toBeLessThan(40);
  expect((await store.size()).rows).toBe(800);
  expect(await store.rows([reading(0)], 0, beginMs + dayMs, 10_000)).toHaveLength(800);
  db.exec('ALTER TABLE rollup_away RENAME TO rollup');
  expect((await store.append(minutes(kept, 10))).newCount).toBe(10);
  expect((await store.append(minutes(0, kept + 10))).duplicateCount).toBe(810);
  await store.close();
});

test('append() rejects while another program holds the file, keeps nothing of it, and goes on afterwards', async () => {
  const path = join(scratchFolder(), 'readings.db');
  const store = openSqliteReadings(path);
  await store.append([reading(0)]);
  const other = new Database(path);
  other.exec('BEGIN IMMEDIATE');
  await expect(store.append([reading(1), reading(1, 20, 'bran-top')])).rejects.toThrow(/another program is writing/);
  await expect(store.check()).rejects.toThrow(/another program is writing/);
  expect(await store.lasts()).toHaveLength(1);
  other.exec('ROLLBACK');
  other.close();
  await store.check();
  expect((await store.append([reading(1), reading(1, 20, 'bran-top')])).newCount).toBe(2);
  await store.close();
});

test('opening tells of an inbox that is damaged', async () => {
  const path = join(scratchFolder(), 'readings.db');
  await openSqliteReadings(path).close();
  const db = new Database(path);
  db.prepare('INSERT INTO inbox VALUES (1, ?)').run(Buffer.alloc(21));
  db.close();
  expect(() => openSqliteReadings(path)).toThrow(/length must be a multiple of 20 bytes: current value is 21/);
});

describe('forget()', () => {
  const gone = { site, probe: 'bran-core' };
  const count = (db: Database.Database, table: string) =>
    Number(db.prepare(`SELECT count(*) FROM ${table}`).pluck().get());

  test('takes no more rows in a step than it may, and goes on after the program was cut short', async () => {
    const path = join(scratchFolder(), 'readings.db');
    const store = openSqliteReadings(path, { flushAt: 50, forgetRows: 100 });
    await store.append(['bran-core', 'bran-top'].flatMap((probe) => minutes(0, 600, probe)));
    expect(await store.forget([gone])).toEqual({ removed: 100, done: false });
    const copy = copyAsAfterCrash(path, join(scratchFolder(), 'copy.db'));
    await store.close();

    const again = openSqliteReadings(copy, { forgetRows: 100 });
    expect((await again.lasts()).map(({ probe }) => probe)).toEqual(['bran-top']);
    // It speaks again meanwhile, and what comes must not be taken for what has to go.
    await again.append(minutes(0, 30, 'bran-core'));
    let removed = 0;
    for (let done = false; !done; ) {
      const step = await again.forget([]);
      expect(step.removed).toBeLessThanOrEqual(100);
      removed += step.removed;
      done = step.done;
    }
    expect(removed).toBeGreaterThan(500);
    expect(await again.rows([{ ...gone, quantity: 'temperature' }], 0, beginMs + dayMs, 1_000)).toHaveLength(30);
    await again.close();
    const db = new Database(copy);
    expect([count(db, 'reading'), count(db, 'forgotten'), count(db, 'series')]).toEqual([630, 0, 2]);
    expect(db.prepare('SELECT sum(n) FROM rollup WHERE tier = 0').pluck().get()).toBe(630);
    db.close();
  });

  test('fails as a whole when the disk does, and nothing is forgotten then', async () => {
    const db = new Database(join(scratchFolder(), 'readings.db'));
    const store = new SqliteReadings(db);
    await store.append(minutes(0, 10, 'bran-core'));
    db.exec("CREATE TRIGGER broken BEFORE DELETE ON series BEGIN SELECT raise(ABORT, 'no'); END");
    await expect(store.forget([gone])).rejects.toThrow(StoreError);
    expect(await store.rows([{ ...gone, quantity: 'temperature' }], 0, beginMs + dayMs, 100)).toHaveLength(10);
    expect(count(db, 'forgotten')).toBe(0);
    await store.close();
  });

  test('in the middle of a round and of a downsampling loses nothing of the other probes', async () => {
    const store = openSqliteReadings(':memory:', { flushAt: 40, flushRows: 5, downsampleRows: 11, forgetRows: 13 });
    const probes = Array.from({ length: 12 }, (_, one) => `p-${one}`);
    for (let hour = 0; hour < 8; hour += 1)
      await store.append(probes.flatMap((probe) => minutes(hour * 60, 60, probe)));
    await store.downsample(beginMs + dayMs);
    await store.append(probes.flatMap((probe) => minutes(600, 1, probe)));
    await store.forget([
      { site, probe: 'p-3' },
      { site, probe: 'p-11' },
    ]);
    await downsampleWhole(store, beginMs + dayMs);
    while (!(await store.forget([])).done);
    const left = probes.filter((probe) => probe !== 'p-3' && probe !== 'p-11');
    const { columns } = await store.buckets(
      left.map((probe) => ({ site, probe, quantity: 'temperature' as const })),
      beginMs,
      beginMs + dayMs,
      8,
    );
    expect(columns.map((one) => one.count.reduce((sum, some) => sum + some, 0))).toEqual(left.map(() => 481));
    await store.close();
  });
});

describe('thin()', () => {
  const hours = (count: number) => ['bran-core', 'bran-top'].flatMap((probe) => minutes(0, count * 60, probe));
  const filled = async (db: Database.Database, options: SqliteReadingsOptions = {}) => {
    const store = new SqliteReadings(db, options);
    for (const day of Array.from({ length: 20 }, (_, index) => index)) {
      await store.append(hours(24).map((one) => ({ ...one, atMs: one.atMs + day * dayMs })));
    }
    return store;
  };

  test('gives the room back: the file is smaller afterwards, and whole', async () => {
    const path = join(scratchFolder(), 'readings.db');
    await (await filled(new Database(path))).close();
    const before = statSync(path).size;
    const store = openSqliteReadings(path);
    expect(await downsampleWhole(store, beginMs + 18 * dayMs)).toBe(2 * 18 * 1_440);
    await store.close();
    expect(statSync(path).size).toBeLessThan(before / 3);
    const db = new Database(path);
    expect(db.pragma('integrity_check', { simple: true })).toBe('ok');
    db.close();
  });

  test('of a file that an earlier version made frees its pages for later rows', async () => {
    const path = join(scratchFolder(), 'readings.db');
    const old = new Database(path);
    migrate(old, 1);
    old.close();
    const db = new Database(path);
    const store = await filled(db);
    expect(await downsampleWhole(store, beginMs + 18 * dayMs)).toBe(2 * 18 * 1_440);
    const free = Number(db.pragma('freelist_count', { simple: true }));
    expect(free).toBeGreaterThan(100);
    const pages = Number(db.pragma('page_count', { simple: true }));
    await store.append(hours(24).map((one) => ({ ...one, atMs: one.atMs + 20 * dayMs })));
    expect(Number(db.pragma('page_count', { simple: true }))).toBe(pages);
    await store.close();
  });

  test('takes no more rows in a step than it may, and flushes what waits before its watermark passes it', async () => {
    const store = await filled(new Database(':memory:'), { flushAt: 1_000_000, downsampleRows: 500 });
    const steps: number[] = [];
    for (let done = false; !done; ) {
      const step = await store.downsample(beginMs + 10 * dayMs);
      steps.push(step.removed);
      done = step.done;
    }
    expect(Math.max(...steps)).toBe(500);
    expect(steps.reduce((sum, one) => sum + one, 0)).toBe(2 * 10 * 1_440);
    const { columns } = await store.buckets([reading(0)], beginMs, beginMs + 20 * dayMs, 1);
    expect(columns[0]?.count[0]).toBe(20 * 1_440);
    await store.close();
  });

  test('does nothing while another program holds the file, and goes on afterwards', async () => {
    const path = join(scratchFolder(), 'readings.db');
    const store = await filled(new Database(path, { timeout: 50 }));
    const other = new Database(path);
    other.exec('BEGIN IMMEDIATE');
    await expect(store.downsample(beginMs + 10 * dayMs)).rejects.toThrow(
      /^Cannot thin the readings as another program/,
    );
    expect(await store.rawFrom([reading(0)])).toBe(0);
    other.exec('ROLLBACK');
    other.close();
    expect(await downsampleWhole(store, beginMs + 10 * dayMs)).toBe(2 * 10 * 1_440);
    await store.close();
  });
});
