/** A pile's readings by position in buckets, with the band that was expected. */
import type { BandLines, ExpectedBand } from '../../../core/expect/band.ts';
import type { Forecast } from '../../../core/forecast/forecast.ts';
import type { BandPoint, BandSource, Bucket, SeriesAnswer } from '../../../shared/contracts/series.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { Position } from '../../../shared/names.ts';
import { type Quantity, quantityFacts } from '../../../shared/quantity.ts';
import type { ClaimRecord } from '../../../shared/store/journal.ts';
import type { BucketColumns, ReadingsStore, SeriesPart } from '../../../shared/store/readings-store.ts';
import { msPerHour } from '../../../shared/units.ts';
import { judgedQuantities } from '../../monitor/pile/pile-sources.ts';
import type { WatchedPile } from '../../monitor/pile/watched-pile.ts';

export interface SeriesQuestion {
  readonly fromMs: number;
  readonly toMs: number;
  readonly points: number;
  readonly expected?: BandSource;
}

interface Part {
  readonly claim: ClaimRecord;
  readonly position: Position;
  readonly quantity: Quantity;
}

export async function pileSeries(
  readings: ReadingsStore,
  one: WatchedPile,
  question: SeriesQuestion,
): Promise<SeriesAnswer> {
  const { fromMs, toMs, points } = question;
  const parts = one.sources
    .filter(({ claim }) => claim.fromMs < toMs && (claim.toMs ?? Number.POSITIVE_INFINITY) > fromMs)
    .flatMap(({ claim, position }) => judgedQuantities.map((quantity): Part => ({ claim, position, quantity })));
  const { bucketMs, columns } = await readings.buckets(parts.map(seriesOf), fromMs, toMs, points);

  const positions: SeriesAnswer['positions'] = {};
  parts.forEach((part, i) => {
    const found = columns[i];
    if (!found || found.startMs.length === 0) return;
    positions[part.position] ??= {};
    const series = positions[part.position] as Record<string, Bucket[]>;
    const key = quantityFacts[part.quantity].key;
    const before = series[key];
    const buckets = toBuckets(found);
    series[key] = before ? joined(before, buckets) : buckets;
  });
  const { band, assessment } = await one.judged();
  return {
    from: toInstant(fromMs),
    to: toInstant(toMs),
    bucketMs,
    positions,
    expected: expectedIn(band, question),
    forecast: forecastOf(assessment?.forecast ?? null),
  };
}

/** Only what the probe said while it was claimed for this place. */
function seriesOf({ claim, quantity }: Part): SeriesPart {
  return { site: claim.site, probe: claim.probe, quantity, fromMs: claim.fromMs, toMs: claim.toMs };
}

function toBuckets(columns: BucketColumns): Bucket[] {
  const { startMs, min, mean, max, count } = columns;
  const buckets: Bucket[] = [];
  for (let i = 0; i < startMs.length; i++) {
    const atMs = startMs[i] as number;
    buckets.push({
      at: toInstant(atMs),
      min: rounded(min[i] as number),
      mean: rounded(mean[i] as number),
      max: rounded(max[i] as number),
      count: count[i] as number,
    });
  }
  return buckets;
}

/** Two probes that served one position after the other, in order of time; the bucket of the change holds both. */
function joined(one: readonly Bucket[], other: readonly Bucket[]): Bucket[] {
  const byStart = new Map(one.map((bucket) => [bucket.at, bucket]));
  for (const bucket of other) {
    const same = byStart.get(bucket.at);
    byStart.set(bucket.at, same ? together(same, bucket) : bucket);
  }
  return [...byStart.values()].sort((a, b) => (a.at < b.at ? -1 : 1));
}

function together(one: Bucket, other: Bucket): Bucket {
  const count = one.count + other.count;
  return {
    at: one.at,
    min: Math.min(one.min, other.min),
    mean: rounded((one.mean * one.count + other.mean * other.count) / count),
    max: Math.max(one.max, other.max),
    count,
  };
}

/** To a thousandth: beyond every probe's resolution, and a third of the bytes. */
function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}

function expectedIn(
  band: ExpectedBand | null,
  { fromMs, toMs, points, expected = 'both' }: SeriesQuestion,
): SeriesAnswer['expected'] {
  if (!band) return { origin: 'not computed yet', points: [] };
  const lines = linesOf(band, expected);
  const first = Math.max(0, Math.ceil((fromMs - band.fromMs) / band.stepMs));
  const last = Math.min(band.p50C.length - 1, Math.floor((toMs - band.fromMs) / band.stepMs));
  const stride = Math.max(1, Math.ceil((last - first + 1) / points));
  const shown: BandPoint[] = [];
  for (let i = first; i <= last; i += stride) {
    const [p10, p50, p90] = [lines.p10C[i], lines.p50C[i], lines.p90C[i]];
    if (p10 === undefined || p50 === undefined || p90 === undefined || Number.isNaN(p50)) continue;
    shown.push({
      at: toInstant(band.fromMs + i * band.stepMs),
      p10: rounded(p10),
      p50: rounded(p50),
      p90: rounded(p90),
    });
  }
  return { origin: lines.origin, points: shown, ...(band.sources && { ownBatches: band.sources.ownBatches }) };
}

/** Without batches of the grower's own, the model speaks for all three. */
function linesOf(band: ExpectedBand, expected: BandSource): BandLines {
  return expected === 'both' || !band.sources ? band : band.sources[expected];
}

function forecastOf(forecast: Forecast | null): SeriesAnswer['forecast'] {
  if (!forecast) return null;
  const points = forecast.p50C.map((p50, i) => ({
    at: toInstant(forecast.atMs + (i + 1) * msPerHour),
    p10: rounded(forecast.p10C[i] ?? p50),
    p50: rounded(p50),
    p90: rounded(forecast.p90C[i] ?? p50),
  }));
  return { points };
}
