/**
 * shared/store/influx-readings.ts: the readings store over an InfluxDB of generation 1, 2 or 3.
 *
 * Takes:  an address; the bucket (database) must exist and be ours alone.
 * Gives:  the contract of readings-store.ts. Buckets are worked out by the database from the rows.
 * Never:  resolves `append` before InfluxDB has taken the whole batch. What it took of a batch that failed can be seen
 *         until the batch comes again; it is never acknowledged, and kept once.
 *
 * The value kept first stays, over restarts too, as long as one process at a time writes a series (as leases see to).
 * Were it two: the same readings are still one, but of two values for one time the one written last would stay.
 */
import { StoreError } from '../errors.ts';
import type { Reading } from '../reading.ts';
import { diskBytes } from './influx/disk-bytes.ts';
import type { KnownInflux } from './influx/influx-address.ts';
import { type DoorPatience, doorPatience, InfluxDoor } from './influx/influx-door.ts';
import { influxError, isRefusedWrite } from './influx/influx-error.ts';
import type { InfluxSeries } from './influx/influx-results.ts';
import { type KnownLast, KnownLasts } from './influx/known-last.ts';
import { latestInfluxMs } from './influx/line-protocol.ts';
import {
  bucketsQuestion,
  countsQuestion,
  firstsQuestion,
  keyOf,
  lastsQuestion,
  toBuckets,
  toEnds,
  toValues,
  valuesQuestion,
} from './influx/questions.ts';
import { readRows } from './influx/read-rows.ts';
import { type FoundValues, SortOut } from './influx/sort-out.ts';
import { planBuckets } from './readings/tiers.ts';
import { mustBeWhole, noBuckets, wholeRange } from './readings/whole-range.ts';
import type {
  AppendResult,
  BucketsAnswer,
  ReadingsStore,
  SeriesLast,
  SeriesPart,
  SeriesRef,
} from './readings-store.ts';

/** Late times nearer together than this are asked for by one question. */
const oneQuestionMs = 3_600_000;

/** @throws {StoreError} when the database cannot be asked. */
export async function openInfluxReadings(
  address: KnownInflux,
  patience: DoorPatience = doorPatience,
): Promise<ReadingsStore> {
  const store = new InfluxReadings(address, patience);
  try {
    await store.lasts();
    return store;
  } catch (error) {
    await store.close();
    throw error;
  }
}

class InfluxReadings implements ReadingsStore {
  readonly #address: KnownInflux;
  readonly #door: InfluxDoor;
  readonly #lasts = new KnownLasts();
  readonly #sortOut = new SortOut(this.#lasts);
  /** One batch at a time is sorted out and written: the next must know what became of it. */
  #turn: Promise<unknown> = Promise.resolve();
  #notBeforeMs = 0;
  #lastFailure: StoreError | undefined;
  #closed = false;

  constructor(address: KnownInflux, patience: DoorPatience) {
    this.#address = address;
    this.#door = new InfluxDoor(address, patience);
  }

  async append(readings: readonly Reading[]): Promise<AppendResult> {
    const appended = this.#turn.then(() => this.#append(readings));
    this.#turn = appended.catch(() => undefined);
    return appended;
  }

  async #append(readings: readonly Reading[]): Promise<AppendResult> {
    this.#mustBeOpen();
    const attempt = `keep ${readings.length} readings`;
    const late = this.#sortOut.begin(readings);
    this.#mustNotBeAskedToWait(attempt);
    const found = await this.#attempt('read what is already kept', () => this.#valuesAt(late));
    const { lines, result } = this.#sortOut.finish(readings, found);
    if (result.newCount === 0) return result;
    try {
      await this.#door.write(lines);
    } catch (cause) {
      this.#sortOut.failed();
      throw this.#failed(attempt, cause, isRefusedWrite(cause) ? await this.#whichIsMissing(readings) : '');
    }
    this.#sortOut.kept();
    this.#lastFailure = undefined;
    return result;
  }

  async #valuesAt(late: ReadonlyMap<KnownLast, number[]>): Promise<FoundValues> {
    const asked: { series: KnownLast; question: string }[] = [];
    for (const [series, times] of late) {
      for (const [fromMs, throughMs] of stretches(times)) {
        asked.push({ series, question: valuesQuestion(series, fromMs, throughMs) });
      }
    }
    const found = new Map<KnownLast, Map<number, number>>();
    const answers = await this.#door.query(asked.map(({ question }) => question));
    for (const [index, { series }] of asked.entries()) {
      const values = toValues(answers[index] ?? []);
      const known = found.get(series);
      if (known === undefined) found.set(series, values);
      else for (const [atMs, value] of values) known.set(atMs, value);
    }
    return found;
  }

  /** A refused batch may be there in part: names what is not, so that a person can mend it. */
  async #whichIsMissing(readings: readonly Reading[]): Promise<string> {
    const times = new Map<KnownLast, number[]>();
    const series = readings.map((reading) => this.#seriesOf(reading));
    for (const [index, one] of series.entries()) {
      times.set(one, [...(times.get(one) ?? []), (readings[index] as Reading).atMs]);
    }
    try {
      const found = await this.#valuesAt(times);
      const missing = readings.filter(({ atMs }, index) => !found.get(series[index] as KnownLast)?.has(atMs));
      const first = missing[0];
      if (first === undefined) return '';
      const { site, probe, quantity, value, atMs } = first;
      return `; ${missing.length} of them are not there, first ${site}/${probe} ${quantity} ${value} at ${new Date(atMs).toISOString()}`;
    } catch {
      return '';
    }
  }

  async buckets(series: readonly SeriesPart[], fromMs: number, toMs: number, points: number): Promise<BucketsAnswer> {
    this.#mustBeOpen();
    mustBeWhole('points', points, 1);
    const [fromTimeMs, toTimeMs] = wholeRange(fromMs, toMs);
    const { bucketMs } = planBuckets(fromTimeMs, toTimeMs, points);
    const questions = series.map((part) => {
      const [partFromMs, partToMs] = wholeRange(part.fromMs ?? 0, part.toMs ?? Number.POSITIVE_INFINITY);
      const startMs = Math.max(fromTimeMs, partFromMs);
      const endMs = Math.min(toTimeMs, partToMs, latestInfluxMs + 1);
      return startMs >= endMs ? null : bucketsQuestion(part, startMs, endMs - 1, bucketMs);
    });
    const asked = questions.filter((question) => question !== null);
    const answers = await this.#attempt('gather readings', () => this.#door.query(asked));
    let next = 0;
    const columns = questions.map((question) =>
      question === null ? noBuckets() : toBuckets(answers[next++] as InfluxSeries[]),
    );
    return { bucketMs, columns };
  }

  async rows(series: readonly SeriesRef[], fromMs: number, toMs: number, limit: number): Promise<Reading[]> {
    this.#mustBeOpen();
    mustBeWhole('limit', limit, 1);
    const [fromTimeMs, toTimeMs] = wholeRange(fromMs, toMs);
    if (fromTimeMs >= toTimeMs || fromTimeMs > latestInfluxMs) return [];
    return this.#attempt('read readings', () => readRows(this.#door, series, fromTimeMs, toTimeMs - 1, limit));
  }

  async lasts(): Promise<SeriesLast[]> {
    this.#mustBeOpen();
    const [firsts = [], lasts = []] = await this.#attempt('read the newest readings', () =>
      this.#door.query([firstsQuestion, lastsQuestion], this.#door.patience.countMs),
    );
    const firstOf = new Map(toEnds(firsts).map(({ ref, atMs }) => [keyOf(ref), atMs]));
    return toEnds(lasts).map(({ ref, atMs, value }) => {
      const known = this.#seriesOf(ref);
      known.learn(atMs, value);
      // What was kept while the question was under way counts too.
      const firstAtMs = Math.min(firstOf.get(keyOf(ref)) ?? atMs, known.firstAtMs);
      known.firstAtMs = firstAtMs;
      return { ...ref, firstAtMs, atMs: known.lastAtMs, value: known.lastValue };
    });
  }

  async size(): Promise<{ rows: number; bytes: number }> {
    this.#mustBeOpen();
    return this.#attempt('count readings', async () => {
      const [counts = []] = await this.#door.query([countsQuestion], this.#door.patience.countMs);
      const rows = counts.reduce((sum, { values }) => sum + Number(values[0]?.[1] ?? 0), 0);
      return { rows, bytes: await diskBytes(this.#door, this.#address) };
    });
  }

  async check(): Promise<void> {
    this.#mustBeOpen();
    this.#mustNotBeAskedToWait('take readings');
    await this.#attempt('take readings', () => this.#door.knock());
    // Whether a full disk or a lost right is mended only shows when something is really written.
    if (this.#lastFailure === undefined) return;
    await this.#attempt('take readings', () => this.#door.pulse());
    this.#lastFailure = undefined;
  }

  async close(): Promise<void> {
    if (this.#closed) return;
    this.#closed = true;
    this.#door.close();
  }

  #seriesOf({ site, probe, quantity }: SeriesRef): KnownLast {
    return this.#lasts.findOrAdd(site, probe, quantity);
  }

  async #attempt<Result>(attempt: string, run: () => Promise<Result>): Promise<Result> {
    try {
      return await run();
    } catch (cause) {
      if (cause instanceof RangeError) throw cause;
      throw this.#closed ? closedError() : this.#remember(influxError(attempt, this.#door.where, cause));
    }
  }

  #failed(attempt: string, cause: unknown, addition: string): StoreError {
    if (this.#closed) return closedError();
    const error = this.#remember(influxError(attempt, this.#door.where, cause));
    this.#lastFailure = error;
    if (addition === '') return error;
    return new StoreError(error.message + addition, { cause });
  }

  /** When it asked us to wait, nobody knocks before. */
  #remember(error: StoreError): StoreError {
    if (error.retryAfterMs !== undefined) this.#notBeforeMs = Date.now() + error.retryAfterMs;
    return error;
  }

  #mustNotBeAskedToWait(attempt: string): void {
    const waitMs = this.#notBeforeMs - Date.now();
    if (waitMs <= 0) return;
    throw new StoreError(
      `Cannot ${attempt} as ${this.#door.where} asked not to be asked for ${Math.ceil(waitMs / 1000)} s more`,
      { retryAfterMs: waitMs },
    );
  }

  #mustBeOpen(): void {
    if (this.#closed) throw closedError();
  }
}

function closedError(): StoreError {
  return new StoreError('Cannot use the readings as the store is closed');
}

/** Times gathered into stretches without long gaps, both ends included. */
function stretches(times: number[]): [fromMs: number, throughMs: number][] {
  const sorted = times.toSorted((a, b) => a - b);
  const found: [number, number][] = [];
  for (const atMs of sorted) {
    const last = found.at(-1);
    if (last !== undefined && atMs - last[1] <= oneQuestionMs) last[1] = atMs;
    else found.push([atMs, atMs]);
  }
  return found;
}
