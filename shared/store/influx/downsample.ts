/**
 * Takes raw rows away whose time has come, and leaves ten-minute means, a step at a time. It never deletes a row before
 * its stand-in and the watermark over it are kept; cut short, a step is taken again whole. Where another process writes
 * the series, a reading older than the new watermark that it takes in during the very step, or in the 30 s until it looks
 * again, is gone with the rows: the mean of its ten minutes lacks it.
 */
import { StoreError } from '../../errors.ts';
import { msPerDay } from '../../units.ts';
import { wholeStep } from '../readings/downsample.ts';
import { tierLengthsMs, toMiddleMs, watermarkStepMs } from '../readings/tiers.ts';
import type { DownsampleStep } from '../readings-store.ts';
import type { InfluxClient } from './influx-client.ts';
import { numberIn } from './influx-results.ts';
import type { KnownLast, KnownLasts } from './known-last.ts';
import { bucketsQuestion, countBeforeQuestion, standInStart } from './questions.ts';
import type { SeriesNotes } from './series-notes.ts';

/** One step takes at most so many series, and so many days of them all together. */
const seriesPerStep = 50;
const daysPerStep = 200;
const daysPerHop = 60;

const stretchMs = tierLengthsMs[0] as number;

interface Hop {
  readonly series: KnownLast;
  readonly fromMs: number;
  readonly watermarkMs: number;
  readonly reachesGoal: boolean;
}

export class InfluxDownsampler {
  readonly #client: InfluxClient;
  readonly #lasts: KnownLasts;
  readonly #notes: SeriesNotes;
  /** Place among all series of the next one of this run. */
  #next = 0;

  constructor(client: InfluxClient, lasts: KnownLasts, notes: SeriesNotes) {
    this.#client = client;
    this.#lasts = lasts;
    this.#notes = notes;
  }

  /** Before the first step of a run. */
  get isAtStart(): boolean {
    return this.#next === 0;
  }

  /** What is known was changed: the run begins anew, and passes over what is downsampled. */
  beginAnew(): void {
    this.#next = 0;
  }

  async step(beforeMs: number): Promise<DownsampleStep> {
    if (!this.#client.canDelete) {
      throw new StoreError(
        'Cannot thin the readings as InfluxDB 3 takes no single rows away: give its database a retention period instead',
      );
    }
    const goalMs = wholeStep(beforeMs);
    const { hops, next } = this.#due(goalMs);
    await this.#standIn(hops.filter(({ series, watermarkMs }) => watermarkMs > series.watermarkMs));
    await this.#notes.move(hops, goalMs);
    const removed = await this.#deleteBefore(hops.map(({ series }) => series));
    for (const { series } of hops) series.hasDownsampledRows = false;
    this.#next = next;
    const done = next >= this.#lasts.all.length;
    if (done) this.#next = 0;
    return { removed, done };
  }

  #due(goalMs: number): { hops: Hop[]; next: number } {
    const hops: Hop[] = [];
    let days = 0;
    let index = this.#next;
    for (; index < this.#lasts.all.length && hops.length < seriesPerStep && days < daysPerStep; index += 1) {
      const series = this.#lasts.all[index] as KnownLast;
      if (series.lastAtMs === Number.NEGATIVE_INFINITY) continue; // nothing of it was ever kept
      const wantedMs = Math.max(series.watermarkMs, Math.min(goalMs, wholeStep(series.lastAtMs) + watermarkStepMs));
      const fromMs = Math.max(series.watermarkMs, wholeStep(series.firstAtMs));
      const watermarkMs = Math.min(wantedMs, Math.max(fromMs, series.watermarkMs) + daysPerHop * msPerDay);
      if (watermarkMs <= series.watermarkMs && !series.hasDownsampledRows) continue;
      const reachesGoal = watermarkMs === wantedMs;
      hops.push({ series, fromMs, watermarkMs, reachesGoal });
      days += Math.max(0, watermarkMs - fromMs) / msPerDay;
      if (!reachesGoal) break; // the same series again in the next step
    }
    return { hops, next: index };
  }

  async #standIn(hops: readonly Hop[]): Promise<void> {
    const some = hops.filter(({ fromMs, watermarkMs }) => fromMs < watermarkMs);
    const questions = some.map(({ series, fromMs, watermarkMs }) =>
      bucketsQuestion(series, fromMs, watermarkMs - 1, stretchMs),
    );
    const lines: string[] = [];
    for (const [index, answer] of (await this.#client.query(questions)).entries()) {
      const start = standInStart((some[index] as Hop).series);
      for (const row of answer.flatMap(({ values }) => values)) {
        const [atMs, count, min, max, sum] = row.map(numberIn) as [number, number, number, number, number];
        if (count > 0) lines.push(`${start}n=${count},min=${min},max=${max},sum=${sum} ${atMs + toMiddleMs}`);
      }
    }
    if (lines.length > 0) await this.#client.write(lines.join('\n'));
  }

  async #deleteBefore(series: readonly KnownLast[]): Promise<number> {
    const counts = await this.#client.query(series.map((one) => countBeforeQuestion(one, one.watermarkMs)));
    const full = series.filter((_, index) => counts[index]?.[0]?.values[0] !== undefined);
    await this.#client.deleteBefore(full.map((one) => ({ ...one.ref, beforeMs: one.watermarkMs })));
    return counts.reduce((sum, [answer]) => sum + Number(answer?.values[0]?.[1] ?? 0), 0);
  }
}
