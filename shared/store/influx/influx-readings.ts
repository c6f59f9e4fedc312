/**
 * The readings store over an InfluxDB of generation 1, 2 or 3.
 *
 * The value kept first stays, over restarts too, as long as one process at a time writes a series (as leases see to).
 * Were it two: the same readings are still one, but of two values for one time the one written last would stay. It
 * never resolves `append` before InfluxDB has taken the whole batch. What it took of a batch that failed can be seen
 * until the batch comes again; it is never acknowledged, and kept once.
 */

import { StoreError } from '../../errors.ts';
import { type Message, message } from '../../messages/message.ts';
import type { Reading } from '../../reading.ts';
import { wholeStep } from '../readings/downsample.ts';
import { planBuckets } from '../readings/tiers.ts';
import { mustBeWhole, noBuckets, wholeRange } from '../readings/whole-range.ts';
import type {
  AppendResult,
  BucketsAnswer,
  Downsampled,
  DownsampleStep,
  ForgetStep,
  KeptReading,
  ProbeName,
  ReadingsStore,
  SeriesLast,
  SeriesPart,
  SeriesRef,
  Weight,
} from '../readings-store.ts';
import { Attempts } from './attempts.ts';
import { bucketQuestions } from './bucket-questions.ts';
import { diskBytes } from './disk-bytes.ts';
import { InfluxDownsampler } from './downsample.ts';
import type { KnownInflux } from './influx-address.ts';
import { type AuthPatience, authPatience, InfluxClient } from './influx-client.ts';
import { isRefusedWrite } from './influx-error.ts';
import { KnownLasts } from './known-last.ts';
import { latestInfluxMs } from './line-protocol.ts';
import { countsBetweenQuestion, countsQuestion, toBuckets } from './questions.ts';
import { followSeries, openSeries } from './read-lasts.ts';
import { readRows } from './read-rows.ts';
import { SeriesNotes } from './series-notes.ts';
import { SortOut } from './sort-out.ts';
import { valuesAt, whichIsMissing } from './values-at.ts';

/** About, once compacted; measured on a month of minutes of a thousand series in InfluxDB 1.6. */
const bytesPerRow = 4;
/** Probes that one step forgets. */
const probesPerStep = 50;

/**
 * @param series Which it knows from the start: all there are, or none, so that each site's are read when they are first
 *   asked for or written.
 * @throws {StoreError} when the database cannot be asked.
 */
export async function openInfluxReadings(
  address: KnownInflux,
  patience: AuthPatience = authPatience,
  series: 'all' | 'none' = 'all',
): Promise<ReadingsStore> {
  const store = new InfluxReadings(address, patience);
  try {
    if (series === 'all') await store.lasts();
    return store;
  } catch (error) {
    await store.close();
    throw error;
  }
}

class InfluxReadings implements ReadingsStore {
  readonly #address: KnownInflux;
  readonly #client: InfluxClient;
  readonly #attempts: Attempts;
  readonly #lasts = new KnownLasts();
  readonly #sortOut = new SortOut(this.#lasts);
  readonly #notes: SeriesNotes;
  readonly #downsampler: InfluxDownsampler;
  /** One batch at a time is sorted out and written: the next must know what became of it. */
  #turn: Promise<unknown> = Promise.resolve();
  /** Probes whose rows still have to go. */
  readonly #forgetting: ProbeName[] = [];
  #lastFailure: StoreError | undefined;
  /** Whether every series was asked for, and there were notes of them. */
  #followsAll = false;

  constructor(address: KnownInflux, patience: AuthPatience) {
    this.#address = address;
    this.#client = new InfluxClient(address, patience);
    this.#attempts = new Attempts(this.#client.where);
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
    this.#attempts.mustBeOpen();
    const attempt = readings.length === 1 ? 'keep a reading' : `keep ${readings.length} readings`;
    await this.#openSitesOf(readings);
    const late = this.#sortOut.begin(readings);
    this.#attempts.mustNotBeAskedToWait(attempt);
    const found = await this.#attempts.run('read what is already kept', async () => {
      // Only what is late can lie before a watermark that another process has moved.
      if (late.size > 0) await this.#notes.readAgain();
      return valuesAt(this.#client, late);
    });
    const { lines, result } = this.#sortOut.finish(readings, found);
    if (result.newCount === 0) return result;
    try {
      await this.#client.write(lines);
    } catch (cause) {
      this.#sortOut.failed();
      const error = this.#attempts.failed(attempt, cause);
      this.#lastFailure = error;
      const missing = isRefusedWrite(cause) ? await whichIsMissing(this.#client, this.#lasts, readings) : '';
      throw missing === '' ? error : new StoreError(error.message + missing, { cause });
    }
    this.#sortOut.kept();
    this.#lastFailure = undefined;
    return result;
  }

  async buckets(series: readonly SeriesPart[], fromMs: number, toMs: number, points: number): Promise<BucketsAnswer> {
    this.#attempts.mustBeOpen();
    mustBeWhole('points', points, 1);
    const [fromTimeMs, toTimeMs] = wholeRange(fromMs, toMs);
    const { bucketMs } = planBuckets(fromTimeMs, toTimeMs, points);
    await this.#openSitesOf(series);
    return this.#attempts.run('gather readings', async () => {
      await this.#notes.readAgain();
      const questions = series.map((part) =>
        bucketQuestions(part, this.#watermarkOf(part), [fromTimeMs, toTimeMs], bucketMs),
      );
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

  async rows(series: readonly SeriesRef[], fromMs: number, toMs: number, limit: number): Promise<KeptReading[]> {
    this.#attempts.mustBeOpen();
    mustBeWhole('limit', limit, 1);
    const [fromTimeMs, toTimeMs] = wholeRange(fromMs, toMs);
    if (fromTimeMs >= toTimeMs || fromTimeMs > latestInfluxMs) return [];
    await this.#openSitesOf(series);
    return this.#attempts.run('read readings', async () => {
      await this.#notes.readAgain();
      return readRows(this.#client, series, (ref) => this.#watermarkOf(ref), fromTimeMs, toTimeMs - 1, limit);
    });
  }

  async lasts(sites?: readonly string[]): Promise<SeriesLast[]> {
    this.#attempts.mustBeOpen();
    return this.#attempts.run('read the newest readings', async () => {
      // Of sites that are named another process may have kept anything meanwhile.
      if (sites === undefined) await this.#readAllLasts();
      else await openSeries(this.#known, sites);
      return this.#lasts.all
        .filter(({ site, lastAtMs }) => lastAtMs !== Number.NEGATIVE_INFINITY && (sites?.includes(site) ?? true))
        .map(({ ref, firstAtMs, lastAtMs, lastValue }) => ({ ...ref, firstAtMs, atMs: lastAtMs, value: lastValue }));
    });
  }

  downsample(beforeMs: number): Promise<DownsampleStep> {
    return this.#inTurn(async () => {
      this.#attempts.mustBeOpen();
      const [wholeMs] = wholeRange(beforeMs, beforeMs);
      return this.#attempts.run('thin the readings', async () => {
        // Series that other processes write have gone on meanwhile.
        if (this.#downsampler.isAtStart) await this.#readAllLasts();
        return this.#downsampler.step(wholeMs);
      });
    });
  }

  forget(probes: readonly ProbeName[]): Promise<ForgetStep> {
    return this.#inTurn(async () => {
      this.#attempts.mustBeOpen();
      if (probes.length > 0 && !this.#client.canDelete) throw new StoreError(cannotForget);
      this.#forgetting.push(...probes);
      const some = this.#forgetting.slice(0, probesPerStep);
      if (some.length > 0) await this.#attempts.run('forget what probes said', () => this.#client.deleteProbes(some));
      // Only now, as what is left of a step that failed is asked for again.
      this.#drop(this.#forgetting.splice(0, some.length));
      return { removed: 0, done: this.#forgetting.length === 0 };
    });
  }

  get cannotForget(): Message | undefined {
    return this.#client.canDelete ? undefined : message('problem.store-forgets-nothing');
  }

  #drop(probes: readonly ProbeName[]): void {
    const gone = new Set(probes.flatMap(({ site, probe }) => this.#lasts.ofProbe(site, probe)));
    this.#sortOut.drop(gone);
    this.#lasts.remove(gone);
    this.#downsampler.beginAnew();
  }

  takeDownsampled(series: SeriesRef, downsampled: Downsampled): Promise<void> {
    return this.#inTurn(async () => {
      this.#attempts.mustBeOpen();
      await this.#openSitesOf([series]);
      await this.#attempts.run('take over what was downsampled', () => this.#notes.take(series, downsampled));
    });
  }

  async rawFrom(series: readonly SeriesRef[]): Promise<number> {
    this.#attempts.mustBeOpen();
    await this.#openSitesOf(series);
    await this.#attempts.run('read how far was downsampled', () => this.#notes.readAgain());
    return series.reduce((latest, ref) => Math.max(latest, this.#watermarkOf(ref)), 0);
  }

  async watermark(): Promise<number> {
    this.#attempts.mustBeOpen();
    await this.#attempts.run('read how far was downsampled', () => this.#notes.readAgain());
    return this.#notes.broughtToMs;
  }

  async weigh(fromMs: number, toMs: number): Promise<Weight> {
    this.#attempts.mustBeOpen();
    const [fromTimeMs, toTimeMs] = wholeRange(fromMs, toMs).map(wholeStep) as [number, number];
    if (fromTimeMs >= toTimeMs) return { rows: 0, bytes: 0, rollupBytes: null };
    return this.#attempts.run('count readings', async () => {
      const rows = await this.#count(countsBetweenQuestion(fromTimeMs, toTimeMs - 1));
      return { rows, bytes: rows * bytesPerRow, rollupBytes: null };
    });
  }

  async size(): Promise<{ rows: number; bytes: number }> {
    this.#attempts.mustBeOpen();
    return this.#attempts.run('count readings', async () => {
      const rows = await this.#count(countsQuestion);
      return { rows, bytes: await diskBytes(this.#client, this.#address) };
    });
  }

  async check(): Promise<void> {
    this.#attempts.mustBeOpen();
    this.#attempts.mustNotBeAskedToWait('take readings');
    await this.#attempts.run('take readings', () => this.#client.checkReadable());
    // Whether a full disk or a lost right is mended only shows when something is really written.
    if (this.#lastFailure === undefined) return;
    await this.#attempts.run('take readings', () => this.#client.pulse());
    this.#lastFailure = undefined;
  }

  async close(): Promise<void> {
    if (this.#attempts.close()) this.#client.close();
  }

  get #known() {
    return { client: this.#client, notes: this.#notes, lasts: this.#lasts };
  }

  async #readAllLasts(): Promise<void> {
    if (this.#followsAll) await followSeries(this.#known);
    else this.#followsAll = await openSeries(this.#known);
  }

  /** Without this what is kept of a site would be taken for new, and its watermarks for none. */
  async #openSitesOf(asked: readonly { readonly site: string }[]): Promise<void> {
    const sites = this.#lasts.unopened(asked);
    if (sites.length === 0) return;
    const attempt = 'read what is already kept';
    this.#attempts.mustNotBeAskedToWait(attempt);
    await this.#attempts.run(attempt, () => openSeries(this.#known, sites));
  }

  async #count(question: string): Promise<number> {
    const [counts = []] = await this.#client.query([question], this.#client.patience.countMs);
    return counts.reduce((sum, { values }) => sum + Number(values[0]?.[1] ?? 0), 0);
  }

  #watermarkOf({ site, probe, quantity }: SeriesRef): number {
    return this.#lasts.find(site, probe, quantity)?.watermarkMs ?? 0;
  }
}

const cannotForget =
  'Cannot forget what a probe said as InfluxDB 3 takes no rows away: give its database a retention period, and they go with their time';
