/** What the probes of a practice run said, in the shape the charts of real piles take. */
import type { ExpectedBand } from '../../../../core/expect/band.ts';
import type { Forecast } from '../../../../core/forecast/forecast.ts';
import type { BandPoint, Bucket, SeriesAnswer } from '../../../../shared/contracts/series.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { quantityFacts } from '../../../../shared/quantity.ts';
import { msPerHour } from '../../../../shared/units.ts';
import type { PracticeReading } from '../../../../simulator/practice/scenarios/practice-scenario.ts';

/** Probes of a practice pile report this often. */
export const reportEveryMs = 600_000;

interface Coalesced {
  sum: number;
  count: number;
  min: number;
  max: number;
}

export function practiceSeries(
  readings: readonly PracticeReading[],
  band: ExpectedBand | null,
  fromMs: number,
  toMs: number,
  points: number,
  forecast: Forecast | null = null,
): SeriesAnswer {
  const bucketMs = Math.max(1, Math.ceil((toMs - fromMs) / points / reportEveryMs)) * reportEveryMs;
  const coalesced = new Map<string, Map<number, Coalesced>>();
  for (const { position, quantity, value, atMs } of readings) {
    const line = `${position} ${quantityFacts[quantity].key}`;
    const buckets = coalesced.get(line) ?? new Map<number, Coalesced>();
    coalesced.set(line, buckets);
    const startMs = fromMs + Math.floor((atMs - fromMs) / bucketMs) * bucketMs;
    const bucket = buckets.get(startMs) ?? { sum: 0, count: 0, min: value, max: value };
    buckets.set(startMs, bucket);
    bucket.sum += value;
    bucket.count += 1;
    bucket.min = Math.min(bucket.min, value);
    bucket.max = Math.max(bucket.max, value);
  }
  const positions: Record<string, Record<string, Bucket[]>> = {};
  for (const [line, buckets] of coalesced) {
    const [position = '', key = ''] = line.split(' ');
    positions[position] = { ...positions[position], [key]: [...buckets].map(toBucket) };
  }
  return {
    from: toInstant(fromMs),
    to: toInstant(toMs),
    bucketMs,
    positions: positions as SeriesAnswer['positions'],
    expected: band
      ? { origin: band.origin, points: bandPoints(band, toMs) }
      : { origin: 'not computed yet', points: [] },
    forecast: forecast && { points: forecastPoints(forecast) },
  };
}

function toBucket([startMs, { sum, count, min, max }]: [number, Coalesced]): Bucket {
  return { at: toInstant(startMs), min, mean: sum / count, max, count };
}

function bandPoints({ fromMs, stepMs, p10C, p50C, p90C }: ExpectedBand, toMs: number): BandPoint[] {
  return Array.from(p50C).flatMap((p50, i): BandPoint[] => {
    const [p10, p90, atMs] = [p10C[i], p90C[i], fromMs + i * stepMs];
    return p10 === undefined || p90 === undefined || atMs > toMs ? [] : [{ at: toInstant(atMs), p10, p50, p90 }];
  });
}

function forecastPoints({ atMs, p10C, p50C, p90C }: Forecast): BandPoint[] {
  return p50C.map((p50, i) => ({
    at: toInstant(atMs + (i + 1) * msPerHour),
    p10: p10C[i] ?? p50,
    p50,
    p90: p90C[i] ?? p50,
  }));
}
