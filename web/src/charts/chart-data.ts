/**
 * A pile's series as lines, bands and table rows. It never draws through a gap: no reading is not a straight line.
 */
import type { BandPoint, Bucket, SeriesAnswer } from '../../../shared/contracts/series.ts';
import { type Position, positions } from '../../../shared/names.ts';
import type { QuantityFacts } from '../../../shared/quantities/quantity-facts.ts';
import { type PileQuantity, type PileQuantityKey, pileQuantities, quantityFacts } from '../../../shared/quantity.ts';
import { msPerHour } from '../../../shared/units.ts';
import { type ChartedQuantity, chartedQuantities } from '../ui/format/quantity-words.ts';

export interface LinePoint {
  readonly atMs: number;
  readonly value: number | null;
}

export interface Line {
  readonly position: Position;
  readonly key: PileQuantityKey;
  readonly points: readonly LinePoint[];
  /** Each stands for itself: nobody knows how it went between two. */
  readonly arePoints?: boolean;
}

/** The lines of one quantity, one for each position. */
export interface QuantityLines {
  readonly quantity: ChartedQuantity;
  readonly lines: readonly Line[];
}

export interface BandAt {
  readonly atMs: number;
  readonly lowC: number;
  readonly midC: number;
  readonly highC: number;
}

const byTime = (one: number, other: number) => one - other;

/** The usual distance between two buckets [ms]: the median, so that one long gap does not hide the rhythm. */
function usualStepMs(timesMs: readonly number[]): number {
  const steps = timesMs
    .slice(1)
    .map((atMs, i) => atMs - (timesMs[i] as number))
    .sort(byTime);
  return steps[Math.floor(steps.length / 2)] ?? 0;
}

/** Points of one line; a null stands where two buckets lie further apart than two buckets and three usual steps. */
export function toLinePoints(buckets: readonly Bucket[], bucketMs: number): LinePoint[] {
  const timesMs = buckets.map((bucket) => Date.parse(bucket.at));
  const breakMs = Math.max(2 * bucketMs, 3 * usualStepMs(timesMs));
  const points: LinePoint[] = [];
  buckets.forEach((bucket, i) => {
    const atMs = timesMs[i] as number;
    const beforeMs = timesMs[i - 1];
    if (beforeMs !== undefined && atMs - beforeMs > breakMs) points.push({ atMs: (beforeMs + atMs) / 2, value: null });
    points.push({ atMs, value: bucket.mean });
  });
  return points;
}

export function linesOf(series: SeriesAnswer, key: PileQuantityKey): Line[] {
  return positions.flatMap((position) => {
    const buckets = series.positions[position]?.[key];
    return buckets && buckets.length > 0 ? [{ position, key, points: toLinePoints(buckets, series.bucketMs) }] : [];
  });
}

/** What was measured by hand, a place each. */
export function handPoints({ byHand = [] }: Pick<SeriesAnswer, 'byHand'>): Line[] {
  return positions.flatMap((position) => {
    const points = byHand
      .filter((one) => one.position === position)
      .map(({ at, temperatureC }) => ({ atMs: Date.parse(at), value: temperatureC }));
    return points.length === 0 ? [] : [{ position, key: 'temperatureC' as const, points, arePoints: true }];
  });
}

/** Of everything beside the temperature that was measured. */
export function otherLines(series: SeriesAnswer): QuantityLines[] {
  return chartedQuantities
    .map((quantity) => ({ quantity, lines: linesOf(series, quantityFacts[quantity].key).map(withinShown(quantity)) }))
    .filter(({ lines }) => lines.length > 0);
}

/** As figures are shown: no humidity above 100 %, whatever the chip of a probe says. */
function withinShown(quantity: ChartedQuantity): (line: Line) => Line {
  const { within }: QuantityFacts['shown'] = quantityFacts[quantity].shown;
  if (within === undefined) return (line) => line;
  const [min, max] = within;
  const shown = (value: number | null) => (value === null ? null : Math.min(max, Math.max(min, value)));
  return (line) => ({ ...line, points: line.points.map(({ atMs, value }) => ({ atMs, value: shown(value) })) });
}

export function bandOf(points: readonly BandPoint[]): BandAt[] {
  return points.map(({ at, p10, p50, p90 }) => ({ atMs: Date.parse(at), lowC: p10, midC: p50, highC: p90 }));
}

/** The fan belongs to a span that ends now; a span of the past has no day ahead [ms]. */
const fanWithinMs = 2 * msPerHour;
/** Of a short span no more is drawn ahead than it is long, or what was measured would be a corner of the chart. */
const leastAheadMs = 3 * msPerHour;

/** The core's next hours, where the span shown reaches up to now; empty otherwise. */
export function fanOf({ to, forecast }: Pick<SeriesAnswer, 'to' | 'forecast'>): BandAt[] {
  const toMs = Date.parse(to);
  const fan = bandOf(forecast?.points ?? []).filter(({ atMs }) => atMs > toMs);
  const first = fan[0];
  return first !== undefined && first.atMs - toMs <= fanWithinMs ? fan : [];
}

/** As much of it as is drawn. */
export function drawnAhead(fan: readonly BandAt[], { from, to }: Pick<SeriesAnswer, 'from' | 'to'>): BandAt[] {
  const toMs = Date.parse(to);
  const untilMs = toMs + Math.max(leastAheadMs, toMs - Date.parse(from));
  return fan.filter(({ atMs }) => atMs <= untilMs);
}

/** The band at an instant, between its two nearest points; undefined outside it. */
export function bandAt(band: readonly BandAt[], atMs: number): BandAt | undefined {
  const after = band.findIndex((point) => point.atMs >= atMs);
  const right = band[after];
  if (!right) return undefined;
  if (right.atMs === atMs) return right;
  const left = band[after - 1];
  if (!left) return undefined;
  const part = (atMs - left.atMs) / (right.atMs - left.atMs);
  const mix = (from: number, to: number) => from + (to - from) * part;
  return {
    atMs,
    lowC: mix(left.lowC, right.lowC),
    midC: mix(left.midC, right.midC),
    highC: mix(left.highC, right.highC),
  };
}

/** The value of a line nearest to an instant, unless that is further off than `withinMs`. */
export function valueNear(points: readonly LinePoint[], atMs: number, withinMs: number): number | undefined {
  let best: LinePoint | undefined;
  for (const point of points) {
    if (point.value === null) continue;
    if (!best || Math.abs(point.atMs - atMs) < Math.abs(best.atMs - atMs)) best = point;
  }
  return best && Math.abs(best.atMs - atMs) <= withinMs ? (best.value ?? undefined) : undefined;
}

export interface TableColumn {
  readonly position: Position;
  readonly quantity: PileQuantity;
}

export interface TableRow {
  readonly atMs: number;
  /** One cell per column; null where nothing was read. */
  readonly cells: readonly (Bucket | null)[];
  readonly expected: BandAt | undefined;
}

/** The same data as the charts, newest first. */
export function tableOf(series: SeriesAnswer): { columns: TableColumn[]; rows: TableRow[] } {
  const bucketsOf = ({ position, quantity }: TableColumn) =>
    series.positions[position]?.[quantityFacts[quantity].key] ?? [];
  const columns = pileQuantities
    .flatMap((quantity) => positions.map((position) => ({ position, quantity })))
    .filter((column) => bucketsOf(column).length > 0);
  const byColumn = columns.map((column) => new Map(bucketsOf(column).map((bucket) => [Date.parse(bucket.at), bucket])));
  const band = bandOf(series.expected.points);
  const timesMs = [...new Set(byColumn.flatMap((column) => [...column.keys()]))].sort(byTime).reverse();
  const rows = timesMs.map((atMs) => ({
    atMs,
    cells: byColumn.map((column) => column.get(atMs) ?? null),
    expected: bandAt(band, atMs),
  }));
  return { columns, rows };
}
