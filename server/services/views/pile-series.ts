/** A pile's readings by position in buckets, with the band that was expected. */
import { expectedView, forecastView, type SeriesQuestion, thousandth } from '../../../core/session/series-view.ts';
import type { Bucket, SeriesAnswer } from '../../../shared/contracts/series.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { isHandProbe } from '../../../shared/hand-series.ts';
import { worded } from '../../../shared/messages/in-words.ts';
import type { Position } from '../../../shared/names.ts';
import { pileQuantities, type Quantity, quantityFacts } from '../../../shared/quantity.ts';
import type { ClaimRecord, Journal } from '../../../shared/store/journal.ts';
import type { BucketColumns, ReadingsStore, SeriesPart } from '../../../shared/store/readings-store.ts';
import type { WatchedPile } from '../../pile/watched-pile.ts';
import { handPoints } from '../journal/hand-points.ts';

interface Part {
  readonly claim: ClaimRecord;
  readonly position: Position;
  readonly quantity: Quantity;
}

export async function pileSeries(
  { journal, readings }: { readonly journal: Pick<Journal, 'entries'>; readonly readings: ReadingsStore },
  one: WatchedPile,
  question: SeriesQuestion,
): Promise<SeriesAnswer> {
  const { fromMs, toMs, points } = question;
  const parts = one.sources
    .filter(({ claim }) => !isHandProbe(claim.probe)) // drawn as single points
    .filter(({ claim }) => claim.fromMs < toMs && (claim.toMs ?? Number.POSITIVE_INFINITY) > fromMs)
    .flatMap(({ claim, position }) => pileQuantities.map((quantity): Part => ({ claim, position, quantity })));
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
    ...(await measuredByHand(journal, one.pile.id, question)),
    expected: worded(expectedView(band, question)),
    forecast: forecastView(assessment?.forecast ?? null),
  };
}

/** Two a day for ten years would be as many; the newest of them. */
const mostByHand = 5_000;

async function measuredByHand(
  journal: Pick<Journal, 'entries'>,
  pileId: string,
  { fromMs, toMs }: SeriesQuestion,
): Promise<Pick<SeriesAnswer, 'byHand'>> {
  const entries = await journal.entries.list({ pileId, fromMs, toMs, kinds: ['measured'], limit: mostByHand });
  const byHand = handPoints(entries.reverse());
  return byHand.length === 0 ? {} : { byHand };
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
      min: thousandth(min[i] as number),
      mean: thousandth(mean[i] as number),
      max: thousandth(max[i] as number),
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
    mean: thousandth((one.mean * one.count + other.mean * other.count) / count),
    max: Math.max(one.max, other.max),
    count,
  };
}
