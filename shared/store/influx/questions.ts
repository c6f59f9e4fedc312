/**
 * The questions of the readings store as InfluxQL, and their answers as columns.
 *
 * InfluxQL is the one language all three generations answer. Names stand in it as line-protocol.ts writes them.
 */
import { type Quantity, quantities, quantitySchema } from '../../quantity.ts';
import type { BucketColumns, KeptReading, SeriesRef } from '../readings-store.ts';
import { type InfluxSeries, numberIn } from './influx-results.ts';
import {
  decodeName,
  encodeName,
  latestInfluxMs,
  seriesCondition,
  sitesCondition,
  timeCondition,
} from './line-protocol.ts';

const everyQuantity = quantities.map((quantity) => `"${quantity}"`).join(', ');

/** The first or the newest reading of every series, or of every one of these sites. */
export function endsQuestion(which: 'first' | 'last', sinceMs: number, sites?: readonly string[]): string {
  const where = [timeCondition(sinceMs, latestInfluxMs), ...(sites ? [sitesCondition(sites)] : [])].join(' AND ');
  return `SELECT ${which}("value") FROM ${everyQuantity} WHERE ${where} GROUP BY "probe", "site"`;
}

export function lastBetweenQuestion({ site, probe, quantity }: SeriesRef, fromMs: number, throughMs: number): string {
  return `SELECT last("value") FROM "${quantity}" WHERE ${seriesCondition(site, probe)} AND ${timeCondition(fromMs, throughMs)}`;
}

export const countsQuestion = `SELECT count("value") FROM ${everyQuantity}`;

/** A stretch [fromMs, throughMs] of one series. */
export function valuesQuestion({ site, probe, quantity }: SeriesRef, fromMs: number, throughMs: number): string {
  return `SELECT "value" FROM "${quantity}" WHERE ${seriesCondition(site, probe)} AND ${timeCondition(fromMs, throughMs)}`;
}

export function bucketsQuestion(
  { site, probe, quantity }: SeriesRef,
  fromMs: number,
  throughMs: number,
  bucketMs: number,
): string {
  return `SELECT count("value"), min("value"), max("value"), sum("value") FROM "${quantity}" WHERE ${seriesCondition(site, probe)} AND ${timeCondition(fromMs, throughMs)} GROUP BY time(${bucketMs}ms) fill(none)`;
}

/** The same from the stand-ins of what was downsampled: each counts as all its readings. */
export function standInBucketsQuestion(
  { site, probe, quantity }: SeriesRef,
  fromMs: number,
  throughMs: number,
  bucketMs: number,
): string {
  return `SELECT sum("n"), min("min"), max("max"), sum("sum") FROM "${quantity}_10min" WHERE ${seriesCondition(site, probe)} AND ${timeCondition(fromMs, throughMs)} GROUP BY time(${bucketMs}ms) fill(none)`;
}

/** The part of a stand-in's line before its fields. */
export function standInStart({ site, probe, quantity }: SeriesRef): string {
  return `${quantity}_10min,probe=${encodeName(probe)},site=${encodeName(site)} `;
}

export function countBeforeQuestion({ site, probe, quantity }: SeriesRef, beforeMs: number): string {
  return `SELECT count("value") FROM "${quantity}" WHERE ${seriesCondition(site, probe)} AND ${timeCondition(0, beforeMs - 1)}`;
}

export function countsBetweenQuestion(fromMs: number, throughMs: number): string {
  return `${countsQuestion} WHERE ${timeCondition(fromMs, throughMs)}`;
}

/** Series of one quantity together, oldest first. */
export function rowsQuestion(
  quantity: Quantity,
  series: readonly SeriesRef[],
  fromMs: number,
  throughMs: number,
  limit: number | undefined,
  downsampled: boolean,
): string {
  const any = series.map(({ site, probe }) => `(${seriesCondition(site, probe)})`).join(' OR ');
  const most = limit === undefined ? '' : ` LIMIT ${limit}`;
  const from = downsampled
    ? `"sum", "n", "min", "max", "probe", "site" FROM "${quantity}_10min"`
    : `"value", "probe", "site" FROM "${quantity}"`;
  return `SELECT ${from} WHERE (${any}) AND ${timeCondition(fromMs, throughMs)} ORDER BY time${most}`;
}

/** Time and value of every row of a single series. */
export function toValues(answer: readonly InfluxSeries[]): Map<number, number> {
  const values = new Map<number, number>();
  for (const series of answer) {
    const value = series.columns.indexOf('value');
    for (const row of series.values) values.set(numberIn(row[0]), numberIn(row[value]));
  }
  return values;
}

/** Null for measurements and rows that are not ours. */
function seriesOf({ name, tags }: InfluxSeries): SeriesRef | null {
  const quantity = quantitySchema.safeParse(name);
  const { site, probe } = tags;
  if (!quantity.success || !site || !probe) return null;
  return { site: decodeName(site), probe: decodeName(probe), quantity: quantity.data };
}

/** The one row of each series of a first or a last. @param only the series asked for, where there was one. */
export function toEnds(
  answer: readonly InfluxSeries[],
  only?: SeriesRef,
): { ref: SeriesRef; atMs: number; value: number }[] {
  return answer.flatMap((series) => {
    const ref = only ?? seriesOf(series);
    const row = series.values[0];
    return ref && row ? [{ ref, atMs: numberIn(row[0]), value: numberIn(row[1]) }] : [];
  });
}

export function toReadings(quantity: Quantity, answer: readonly InfluxSeries[], downsampled: boolean): KeptReading[] {
  return answer.flatMap(({ columns, values }) => {
    const [first, probe, site] = [downsampled ? 'sum' : 'value', 'probe', 'site'].map((name) =>
      columns.indexOf(name),
    ) as [number, number, number];
    return values.map((row) => {
      const ref = { site: decodeName(String(row[site])), probe: decodeName(String(row[probe])), quantity };
      const atMs = numberIn(row[0]);
      if (!downsampled) return { ...ref, atMs, value: numberIn(row[first]) };
      const [sum, count, min, max] = row.slice(first, first + 4).map(numberIn) as [number, number, number, number];
      return { ...ref, atMs, value: meanOf(sum, count, min, max), standsFor: { count, min, max } };
    });
  });
}

/** Sums round, so that the mean of equal values could come out a hair beside them. */
function meanOf(sum: number, count: number, min: number, max: number): number {
  return Math.min(max, Math.max(min, sum / count));
}

/** @param answers Of the stand-ins and of the rows of one series; a bucket may hold both. */
export function toBuckets(answers: readonly (readonly InfluxSeries[])[]): BucketColumns {
  const rows: [startMs: number, count: number, min: number, max: number, sum: number][] = [];
  for (const row of answers.flat().flatMap(({ values }) => values)) {
    if (row[1] === null || row[1] === 0) continue;
    const [startMs, count, min, max, sum] = row.map(numberIn) as [number, number, number, number, number];
    const last = rows.at(-1);
    if (last === undefined || last[0] !== startMs) rows.push([startMs, count, min, max, sum]);
    else
      rows[rows.length - 1] = [startMs, last[1] + count, Math.min(last[2], min), Math.max(last[3], max), last[4] + sum];
  }
  const column = (index: number) => Float64Array.from(rows, (row) => row[index] as number);
  const mean = Float64Array.from(rows, ([, count, min, max, sum]) => meanOf(sum, count, min, max));
  return { startMs: column(0), min: column(2), mean, max: column(3), count: column(1) };
}

/** A key for a series as the database names it. */
export function keyOf({ site, probe, quantity }: SeriesRef): string {
  return `${quantity} ${encodeName(site)} ${encodeName(probe)}`;
}
