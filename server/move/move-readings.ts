/**
 * Every reading of one store into another, series by series, oldest first. It never keeps a reading twice: a series
 * that is there already is passed over, one that is there in part is gone on with where it stopped, and run again
 * nothing changes.
 */
import { appended, type KeptReading, type ReadingsStore, type SeriesLast } from '../../shared/store/readings-store.ts';

export interface MovedSeries {
  readonly site: string;
  readonly probe: string;
  readonly quantity: string;
  /** Readings there, downsampled ones counted as they were. */
  readonly fromCount: number;
  readonly toCount: number;
  /** What differs beside the counts. */
  readonly difference: string | null;
}

export interface MoveProgress {
  readonly series: number;
  readonly ofSeries: number;
  /** Readings that this run wrote. */
  readonly written: number;
  /** Readings of the series done so far. */
  readonly readings: number;
}

export interface MoveOptions {
  readonly progress?: (progress: MoveProgress) => void;
  /** Readings of one page. */
  readonly pageRows?: number;
}

const defaultPageRows = 10_000;

/** What one store has of a series before a time: enough to tell whether two have the same. */
interface Summary {
  readonly count: number;
  readonly min: number;
  readonly mean: number;
  readonly max: number;
}

const nothing: Summary = { count: 0, min: 0, mean: 0, max: 0 };

export async function moveReadings(
  from: ReadingsStore,
  to: ReadingsStore,
  { progress, pageRows = defaultPageRows }: MoveOptions = {},
): Promise<MovedSeries[]> {
  const all = await from.lasts();
  const reached = new Map((await to.lasts()).map((last) => [keyOf(last), last.atMs]));
  const moved: MovedSeries[] = [];
  let written = 0;
  let readings = 0;
  for (const series of all) {
    // A stand-in may lie after the newest reading, but not after the watermark.
    const endMs = Math.max(series.atMs + 1, await from.rawFrom([series]), await to.rawFrom([series]));
    const source = await summaryOf(from, series, 0, endMs);
    let conflicts = 0;
    if (!alike(source, await summaryOf(to, series, 0, endMs))) {
      const watermarkMs = await from.rawFrom([series]);
      const rawFromMs = Math.max(watermarkMs, series.firstAtMs);
      const reachedMs = reached.get(keyOf(series)) ?? rawFromMs;
      let nextMs = (await sameWithin(from, to, series, rawFromMs, reachedMs))
        ? Math.max(reachedMs, rawFromMs)
        : rawFromMs;
      for (;;) {
        const page = await from.rows([series], nextMs, endMs, pageRows);
        const last = page.at(-1);
        if (last === undefined) break;
        const { newCount, outcomes } = await to.append(page);
        written += newCount;
        conflicts += outcomes.filter((outcome) => outcome === appended.conflict).length;
        nextMs = last.atMs + 1;
        progress?.({ series: moved.length, ofSeries: all.length, written, readings: readings + written });
      }
      // Last, as it tells the newest reading too, which must not pass for kept before its row is.
      await moveDownsampled(from, to, series, watermarkMs);
    }
    moved.push(compared(series, source, await summaryOf(to, series, 0, endMs), conflicts));
    readings += source.count;
    progress?.({ series: moved.length, ofSeries: all.length, written, readings });
  }
  return moved;
}

/** What was downsampled comes as it is, unless the other store still has it whole. */
async function moveDownsampled(
  from: ReadingsStore,
  to: ReadingsStore,
  series: SeriesLast,
  watermarkMs: number,
): Promise<void> {
  if (watermarkMs === 0 || (await to.rawFrom([series])) >= watermarkMs) return;
  if ((await summaryOf(to, series, 0, watermarkMs)).count > 0) return; // reported at the end, should it be another count
  const standIns: KeptReading[] = [];
  for (let nextMs = 0; ; ) {
    const page = await from.rows([series], nextMs, watermarkMs, defaultPageRows);
    const last = page.at(-1);
    if (last === undefined) break;
    for (const row of page) standIns.push(row);
    nextMs = last.atMs + 1;
  }
  const { firstAtMs, atMs, value } = series;
  await to.takeDownsampled(series, { watermarkMs, standIns, firstAtMs, last: { atMs, value } });
}

async function sameWithin(
  from: ReadingsStore,
  to: ReadingsStore,
  series: SeriesLast,
  fromMs: number,
  untilMs: number,
): Promise<boolean> {
  return alike(await summaryOf(from, series, fromMs, untilMs), await summaryOf(to, series, fromMs, untilMs));
}

async function summaryOf(store: ReadingsStore, series: SeriesLast, fromMs: number, endMs: number): Promise<Summary> {
  if (endMs <= fromMs) return nothing;
  const { site, probe, quantity } = series;
  const { columns } = await store.buckets([{ site, probe, quantity }], fromMs, endMs, 1);
  const [only] = columns;
  if (only === undefined || only.count.length === 0) return nothing;
  const [count = 0, min = 0, mean = 0, max = 0] = [only.count[0], only.min[0], only.mean[0], only.max[0]];
  return { count, min, mean, max };
}

/** Means are sums of many, which two databases may round differently. */
function alike(a: Summary, b: Summary): boolean {
  const near = Math.abs(a.mean - b.mean) <= 1e-9 * Math.max(1, Math.abs(a.mean));
  return a.count === b.count && a.min === b.min && a.max === b.max && near;
}

function compared({ site, probe, quantity }: SeriesLast, from: Summary, to: Summary, conflicts: number): MovedSeries {
  const other = from.count === to.count && !alike(from, to) ? 'other values than there' : null;
  const difference = conflicts > 0 ? `${conflicts} have another value there, which stays` : other;
  return { site, probe, quantity, fromCount: from.count, toCount: to.count, difference };
}

function keyOf({ site, probe, quantity }: SeriesLast): string {
  return JSON.stringify([site, probe, quantity]);
}
