/**
 * The readings store over an InfluxDB of generation 1, 2 or 3.
 *
 * The value kept first stays, over restarts too, as long as one process at a time writes a series (as leases see to).
 * Were it two: the same readings are still one, but of two values for one time the one written last would stay. It
 * never resolves `append` before InfluxDB has taken the whole batch. What it took of a batch that failed can be seen
 * until the batch comes again; it is never acknowledged, and kept once.
 */
import { StoreError } from '../../errors.ts';
import type { Reading } from '../../reading.ts';
import { wholeStep } from '../readings/downsample.ts';
import { planBuckets } from '../readings/tiers.ts';
import { mustBeWhole, noBuckets, wholeRange } from '../readings/whole-range.ts';
import type {
  AppendResult,
  BucketsAnswer,
  DownsampleStep,
  ForgetStep,
  KeptReading,
  ProbeName,
  ReadingsStore,
  SeriesLast,
  SeriesPart,
  SeriesRef,
  Thinned,
  Weight,
} from '../readings-store.ts';
import { diskBytes } from './disk-bytes.ts';
import { InfluxDownsampler } from './downsample.ts';
import type { KnownInflux } from './influx-address.ts';
import { type AuthPatience, authPatience, InfluxClient } from './influx-client.ts';
import { influxError, isRefusedWrite } from './influx-error.ts';
import { type KnownLast, KnownLasts } from './known-last.ts';
import { latestInfluxMs } from './line-protocol.ts';
import {
  bucketsQuestion,
  countsBetweenQuestion,
  countsQuestion,
  standInBucketsQuestion,
  toBuckets,
  toValues,
  valuesQuestion,
} from './questions.ts';
import { lookAtLasts } from './read-lasts.ts';
import { readRows } from './read-rows.ts';
import { SeriesNotes } from './series-notes.ts';
import { type FoundValues, SortOut } from './sort-out.ts';

/** About, once compacted; measured on a month of minutes of a thousand series in InfluxDB 1.6. */
const bytesPerRow = 4;
/** Late times nearer together than this are asked for by one question. */
const oneQuestionMs = 3_600_000;
/** Probes that one step forgets. */
const probesPerStep = 50;

/** @throws {StoreError} when the database cannot be asked. */
export async function openInfluxReadings(
  address: KnownInflux,
  patience: AuthPatience = authPatience,
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
  readonly #client: InfluxClient;
  readonly #lasts = new KnownLasts();
  readonly #sortOut = new SortOut(this.#lasts);
  readonly #notes: SeriesNotes;
  readonly #downsampler: InfluxDownsampler;
  /** One batch at a time is sorted out and written: the next must know what became of it. */
  #turn: Promise<unknown> = Promise.resolve();
  /** Probes whose rows still have to go. */
  readonly #forgetting: ProbeName[] = [];
  #notBeforeMs = 0;
  #lastFailure: StoreError | undefined;
  #closed = false;

  constructor(address: KnownInflux, patience: AuthPatience) {
    this.#address = address;
    this.#client = new InfluxClient(address, patience);
    this.#notes = new SeriesNotes(this.#client, this.#lasts);
    this.#downsampler = new InfluxDownsampler(this.#client, this.#lasts, this.#notes);
  }

  async append(readings: readonly Reading[]): Promise<AppendResult> {
    return this.#inTurn(() => this.#append(readings));
  }

  #inTurn<Result>(run: () => Promise<Result>): Promise<Result> {
    const done = this.#turn.then(run);
    this.#turn = done.catch(() => undefined);
    return done;
  }

  async #append(readings: readonly Reading[]): Promise<AppendResult> {
    this.#mustBeOpen();
    const attempt = readings.length === 1 ? 'keep a reading' : `keep ${readings.length} readings`;
    const late = this.#sortOut.begin(readings);
    this.#mustNotBeAskedToWait(attempt);
    const found = await this.#attempt('read what is already kept', async () => {
      // Only what is late can lie before a horizon that another process has moved.
      if (late.size > 0) await this.#notes.lookAgain();
      return this.#valuesAt(late);
    });
    const { lines, result } = this.#sortOut.finish(readings, found);
    if (result.newCount === 0) return result;
    try {
      await this.#client.write(lines);
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
    const answers = await this.#client.query(asked.map(({ question }) => question));
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
    return this.#attempt('gather readings', async () => {
      await this.#notes.lookAgain();
      const questions = series.map((part) => this.#bucketQuestions(part, fromTimeMs, toTimeMs, bucketMs));
      const answers = await this.#client.queryAtOnce(questions.flat());
      let next = 0;
      const columns = questions.map(({ length }) => {
        const own = answers.slice(next, next + length);
        next += length;
        return own.length === 0 ? noBuckets() : toBuckets(own);
      });
      return { bucketMs, columns };
    });
  }

  /** Of what was thinned and of what was not; none for an empty range. */
  #bucketQuestions(part: SeriesPart, fromMs: number, toMs: number, bucketMs: number): string[] {
    const [partFromMs, partToMs] = wholeRange(part.fromMs ?? 0, part.toMs ?? Number.POSITIVE_INFINITY);
    const startMs = Math.max(fromMs, partFromMs);
    const throughMs = Math.min(toMs, partToMs, latestInfluxMs + 1) - 1;
    const horizonMs = this.#horizonOf(part);
    const questions: string[] = [];
    const thinnedMs = Math.min(throughMs, horizonMs - 1);
    if (startMs <= thinnedMs) questions.push(standInBucketsQuestion(part, startMs, thinnedMs, bucketMs));
    const rawMs = Math.max(startMs, horizonMs);
    if (rawMs <= throughMs) questions.push(bucketsQuestion(part, rawMs, throughMs, bucketMs));
    return questions;
  }

  async rows(series: readonly SeriesRef[], fromMs: number, toMs: number, limit: number): Promise<KeptReading[]> {
    this.#mustBeOpen();
    mustBeWhole('limit', limit, 1);
    const [fromTimeMs, toTimeMs] = wholeRange(fromMs, toMs);
    if (fromTimeMs >= toTimeMs || fromTimeMs > latestInfluxMs) return [];
    return this.#attempt('read readings', async () => {
      await this.#notes.lookAgain();
      return readRows(this.#client, series, (ref) => this.#horizonOf(ref), fromTimeMs, toTimeMs - 1, limit);
    });
  }

  async lasts(): Promise<SeriesLast[]> {
    this.#mustBeOpen();
    return this.#attempt('read the newest readings', async () => {
      await lookAtLasts(this.#client, this.#notes, this.#lasts);
      return this.#lasts.all
        .filter(({ lastAtMs }) => lastAtMs !== Number.NEGATIVE_INFINITY)
        .map(({ ref, firstAtMs, lastAtMs, lastValue }) => ({ ...ref, firstAtMs, atMs: lastAtMs, value: lastValue }));
    });
  }

  downsample(beforeMs: number): Promise<DownsampleStep> {
    return this.#inTurn(async () => {
      this.#mustBeOpen();
      const [wholeMs] = wholeRange(beforeMs, beforeMs);
      return this.#attempt('thin the readings', async () => {
        // Series that other processes write have gone on meanwhile.
        if (this.#downsampler.isAtStart) await lookAtLasts(this.#client, this.#notes, this.#lasts);
        return this.#downsampler.step(wholeMs);
      });
    });
  }

  forget(probes: readonly ProbeName[]): Promise<ForgetStep> {
    return this.#inTurn(async () => {
      this.#mustBeOpen();
      if (probes.length > 0 && !this.#client.canDelete) throw new StoreError(cannotForget);
      this.#forgetting.push(...probes);
      const some = this.#forgetting.slice(0, probesPerStep);
      if (some.length > 0) await this.#attempt('forget what probes said', () => this.#client.deleteProbes(some));
      // Only now, as what is left of a step that failed is asked for again.
      this.#drop(this.#forgetting.splice(0, some.length));
      return { removed: 0, done: this.#forgetting.length === 0 };
    });
  }

  get cannotForget(): string | undefined {
    return this.#client.canDelete ? undefined : cannotForget;
  }

  #drop(probes: readonly ProbeName[]): void {
    const gone = new Set(probes.flatMap(({ site, probe }) => this.#lasts.ofProbe(site, probe)));
    this.#sortOut.drop(gone);
    this.#lasts.remove(gone);
    this.#downsampler.beginAnew();
  }

  takeDownsampled(series: SeriesRef, thinned: Thinned): Promise<void> {
    return this.#inTurn(async () => {
      this.#mustBeOpen();
      await this.#attempt('take over what was thinned', () => this.#notes.take(series, thinned));
    });
  }

  async rawFrom(series: readonly SeriesRef[]): Promise<number> {
    this.#mustBeOpen();
    await this.#attempt('read how far was thinned', () => this.#notes.lookAgain());
    return series.reduce((latest, ref) => Math.max(latest, this.#horizonOf(ref)), 0);
  }

  async horizon(): Promise<number> {
    this.#mustBeOpen();
    await this.#attempt('read how far was thinned', () => this.#notes.lookAgain());
    return this.#notes.broughtToMs;
  }

  async weigh(fromMs: number, toMs: number): Promise<Weight> {
    this.#mustBeOpen();
    const [fromTimeMs, toTimeMs] = wholeRange(fromMs, toMs).map(wholeStep) as [number, number];
    if (fromTimeMs >= toTimeMs) return { rows: 0, bytes: 0, rollupBytes: null };
    return this.#attempt('count readings', async () => {
      const rows = await this.#count(countsBetweenQuestion(fromTimeMs, toTimeMs - 1));
      return { rows, bytes: rows * bytesPerRow, rollupBytes: null };
    });
  }

  async size(): Promise<{ rows: number; bytes: number }> {
    this.#mustBeOpen();
    return this.#attempt('count readings', async () => {
      const rows = await this.#count(countsQuestion);
      return { rows, bytes: await diskBytes(this.#client, this.#address) };
    });
  }

  async check(): Promise<void> {
    this.#mustBeOpen();
    this.#mustNotBeAskedToWait('take readings');
    await this.#attempt('take readings', () => this.#client.checkReadable());
    // Whether a full disk or a lost right is mended only shows when something is really written.
    if (this.#lastFailure === undefined) return;
    await this.#attempt('take readings', () => this.#client.pulse());
    this.#lastFailure = undefined;
  }

  async close(): Promise<void> {
    if (this.#closed) return;
    this.#closed = true;
    this.#client.close();
  }

  async #count(question: string): Promise<number> {
    const [counts = []] = await this.#client.query([question], this.#client.patience.countMs);
    return counts.reduce((sum, { values }) => sum + Number(values[0]?.[1] ?? 0), 0);
  }

  #horizonOf({ site, probe, quantity }: SeriesRef): number {
    return this.#lasts.find(site, probe, quantity)?.horizonMs ?? 0;
  }

  #seriesOf({ site, probe, quantity }: SeriesRef): KnownLast {
    return this.#lasts.findOrAdd(site, probe, quantity);
  }

  async #attempt<Result>(attempt: string, run: () => Promise<Result>): Promise<Result> {
    try {
      return await run();
    } catch (cause) {
      if (cause instanceof RangeError) throw cause;
      throw this.#closed ? closedError() : this.#remember(influxError(attempt, this.#client.where, cause));
    }
  }

  #failed(attempt: string, cause: unknown, addition: string): StoreError {
    if (this.#closed) return closedError();
    const error = this.#remember(influxError(attempt, this.#client.where, cause));
    this.#lastFailure = error;
    if (addition === '') return error;
    return new StoreError(error.message + addition, { cause });
  }

  /** When it asked us to wait, nothing is tried before. */
  #remember(error: StoreError): StoreError {
    if (error.retryAfterMs !== undefined) this.#notBeforeMs = Date.now() + error.retryAfterMs;
    return error;
  }

  #mustNotBeAskedToWait(attempt: string): void {
    const waitMs = this.#notBeforeMs - Date.now();
    if (waitMs <= 0) return;
    throw new StoreError(
      `Cannot ${attempt} as ${this.#client.where} asked not to be asked for ${Math.ceil(waitMs / 1000)} s more`,
      { retryAfterMs: waitMs },
    );
  }

  #mustBeOpen(): void {
    if (this.#closed) throw closedError();
  }
}

const cannotForget =
  'Cannot forget what a probe said as InfluxDB 3 takes no rows away: give its database a retention period, and they go with their time';

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
