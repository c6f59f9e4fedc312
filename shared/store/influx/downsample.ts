/**
 * Takes raw rows away whose time has come, and leaves ten-minute means, a step at a time. It never deletes a row before
 * its stand-in and the horizon over it are kept; cut short, a step is taken again whole. Where another process writes
 * the series, a reading older than the new horizon that it takes in during the very step, or in the 30 s until it looks
 * again, is gone with the rows: the mean of its ten minutes lacks it.
 */
import { StoreError } from '../../errors.ts';
import { wholeStep } from '../readings/downsample.ts';
import { horizonStepMs, tierLengthsMs, toMiddleMs } from '../readings/tiers.ts';
import type { DownsampleStep } from '../readings-store.ts';
import type { InfluxClient } from './influx-client.ts';
import { numberIn } from './influx-results.ts';
import type { KnownLast, KnownLasts } from './known-last.ts';
import { bucketsQuestion, countBeforeQuestion, standInStart } from './questions.ts';
import type { SeriesNotes } from './series-notes.ts';

const dayMs = 86_400_000;
/** One step takes at most so many series, and so many days of them all together. */
const seriesPerStep = 50;
const daysPerStep = 200;
const daysPerHop = 60;

const stretchMs = tierLengthsMs[0] as number;

interface Hop {
  readonly series: KnownLast;
  readonly fromMs: number;
  readonly horizonMs: number;
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
    await this.#standIn(hops.filter(({ series, horizonMs }) => horizonMs > series.horizonMs));
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
      const wantedMs = Math.max(series.horizonMs, Math.min(goalMs, wholeStep(series.lastAtMs) + horizonStepMs));
      const fromMs = Math.max(series.horizonMs, wholeStep(series.firstAtMs));
      const horizonMs = Math.min(wantedMs, Math.max(fromMs, series.horizonMs) + daysPerHop * dayMs);
      if (horizonMs <= series.horizonMs && !series.hasDownsampledRows) continue;
      const reachesGoal = horizonMs === wantedMs;
      hops.push({ series, fromMs, horizonMs, reachesGoal });
      days += Math.max(0, horizonMs - fromMs) / dayMs;
      if (!reachesGoal) break; // the same series again in the next step
    }
    return { hops, next: index };
  }

  async #standIn(hops: readonly Hop[]): Promise<void> {
    const some = hops.filter(({ fromMs, horizonMs }) => fromMs < horizonMs);
    const questions = some.map(({ series, fromMs, horizonMs }) =>
      bucketsQuestion(series, fromMs, horizonMs - 1, stretchMs),
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
    const counts = await this.#client.query(series.map((one) => countBeforeQuestion(one, one.horizonMs)));
    const full = series.filter((_, index) => counts[index]?.[0]?.values[0] !== undefined);
    await this.#client.deleteBefore(full.map((one) => ({ ...one.ref, beforeMs: one.horizonMs })));
    return counts.reduce((sum, [answer]) => sum + Number(answer?.values[0]?.[1] ?? 0), 0);
  }
}
