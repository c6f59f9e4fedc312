/**
 * server/views/pile-series.ts: a pile's readings by position in buckets, with the band that was expected.
 */
import type { ExpectedBand } from '../../core/curve/band.ts';
import type { Forecast } from '../../core/forecast/forecast.ts';
import type { BandPoint, Bucket, SeriesAnswer } from '../../shared/api/series.ts';
import { toInstant } from '../../shared/api/time.ts';
import type { Position } from '../../shared/names.ts';
import { type Quantity, quantityFacts } from '../../shared/quantity.ts';
import type { ClaimRecord } from '../../shared/store/journal.ts';
import type { BucketColumns, ReadingsStore, SeriesRef } from '../../shared/store/readings-store.ts';
import { msPerHour } from '../../shared/units.ts';
import { judgedQuantities } from '../watch/pile-sources.ts';
import type { WatchedPile } from '../watch/watched-pile.ts';

export interface SeriesQuestion {
  readonly fromMs: number;
  readonly toMs: number;
  readonly points: number;
}

interface Part {
  readonly claim: ClaimRecord;
  readonly position: Position;
  readonly quantity: Quantity;
}

export async function pileSeries(
  house: { readings: ReadingsStore },
  one: WatchedPile,
  question: SeriesQuestion,
): Promise<SeriesAnswer> {
  const { fromMs, toMs, points } = question;
  const parts = one.sources
    .filter(({ claim }) => claim.fromMs < toMs && (claim.toMs ?? Number.POSITIVE_INFINITY) > fromMs)
    .flatMap(({ claim, position }) => judgedQuantities.map((quantity): Part => ({ claim, position, quantity })));
  const { bucketMs, columns } = await house.readings.buckets(parts.map(seriesOf), fromMs, toMs, points);

  const positions: SeriesAnswer['positions'] = {};
  parts.forEach((part, i) => {
    const found = columns[i];
    if (!found || found.startMs.length === 0) return;
    positions[part.position] ??= {};
    const series = positions[part.position] as Record<string, Bucket[]>;
    const key = quantityFacts[part.quantity].key;
    const before = series[key];
    const buckets = toBuckets(found, part.claim, bucketMs);
    if (buckets.length === 0) return;
    // Two probes that served one position after the other: joined in order of time.
    series[key] = before ? [...before, ...buckets].sort((a, b) => (a.at < b.at ? -1 : 1)).slice(-points) : buckets;
  });
  return {
    from: toInstant(fromMs),
    to: toInstant(toMs),
    bucketMs,
    positions,
    expected: expectedIn(one.watch.band, question),
    forecast: forecastOf(one.watch.assessment?.forecast ?? null),
  };
}

function seriesOf({ claim, quantity }: Part): SeriesRef {
  return { site: claim.site, probe: claim.probe, quantity };
}

function toBuckets(columns: BucketColumns, claim: ClaimRecord, bucketMs: number): Bucket[] {
  const { startMs, min, mean, max, count } = columns;
  const untilMs = claim.toMs ?? Number.POSITIVE_INFINITY;
  const buckets: Bucket[] = [];
  for (let i = 0; i < startMs.length; i++) {
    const atMs = startMs[i] as number;
    if (atMs + bucketMs <= claim.fromMs || atMs >= untilMs) continue;
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

/** To a thousandth: beyond every probe's resolution, and a third of the bytes. */
function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}

function expectedIn(band: ExpectedBand | null, { fromMs, toMs, points }: SeriesQuestion): SeriesAnswer['expected'] {
  if (!band) return { origin: 'not computed yet', points: [] };
  const first = Math.max(0, Math.ceil((fromMs - band.fromMs) / band.stepMs));
  const last = Math.min(band.p50C.length - 1, Math.floor((toMs - band.fromMs) / band.stepMs));
  const stride = Math.max(1, Math.ceil((last - first + 1) / points));
  const shown: BandPoint[] = [];
  for (let i = first; i <= last; i += stride) {
    const [p10, p50, p90] = [band.p10C[i], band.p50C[i], band.p90C[i]];
    if (p10 === undefined || p50 === undefined || p90 === undefined) continue;
    shown.push({
      at: toInstant(band.fromMs + i * band.stepMs),
      p10: rounded(p10),
      p50: rounded(p50),
      p90: rounded(p90),
    });
  }
  return { origin: band.origin, points: shown };
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
