/** What the probes of a practice run said, in the shape the charts of real piles take. */
import type { ExpectedBand } from '../../../../core/expect/band.ts';
import type { Forecast } from '../../../../core/forecast/forecast.ts';
import { expectedView, forecastView, thousandth } from '../../../../core/session/series-view.ts';
import type { Bucket, SeriesAnswer } from '../../../../shared/contracts/series.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { quantityFacts } from '../../../../shared/quantity.ts';
import type { PracticeReading } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { worded } from './worded.ts';

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
    // What is expected of the time that has passed.
    expected: worded(expectedView(band, { fromMs, toMs, points })),
    forecast: forecastView(forecast),
  };
}

function toBucket([startMs, { sum, count, min, max }]: [number, Coalesced]): Bucket {
  return { at: toInstant(startMs), min: thousandth(min), mean: thousandth(sum / count), max: thousandth(max), count };
}
