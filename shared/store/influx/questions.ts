/**
 * shared/store/influx/questions.ts: the questions of the readings store as InfluxQL, and their answers as columns.
 *
 * InfluxQL is the one language all three generations answer. Names stand in it as line-protocol.ts writes them.
 */
import { type Quantity, quantities, quantitySchema } from '../../quantity.ts';
import type { Reading } from '../../reading.ts';
import type { BucketColumns, SeriesRef } from '../readings-store.ts';
import { type InfluxSeries, numberIn } from './influx-results.ts';
import { decodeName, encodeName, seriesCondition, timeCondition } from './line-protocol.ts';

const everyQuantity = quantities.map((quantity) => `"${quantity}"`).join(', ');

export const firstsQuestion = `SELECT first("value") FROM ${everyQuantity} GROUP BY "probe", "site"`;
export const lastsQuestion = `SELECT last("value") FROM ${everyQuantity} GROUP BY "probe", "site"`;
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

/** Series of one quantity together, oldest first. */
export function rowsQuestion(
  quantity: Quantity,
  series: readonly SeriesRef[],
  fromMs: number,
  throughMs: number,
  limit: number | undefined,
): string {
  const any = series.map(({ site, probe }) => `(${seriesCondition(site, probe)})`).join(' OR ');
  const most = limit === undefined ? '' : ` LIMIT ${limit}`;
  return `SELECT "value", "probe", "site" FROM "${quantity}" WHERE (${any}) AND ${timeCondition(fromMs, throughMs)} ORDER BY time${most}`;
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
export function seriesOf({ name, tags }: InfluxSeries): SeriesRef | null {
  const quantity = quantitySchema.safeParse(name);
  const { site, probe } = tags;
  if (!quantity.success || !site || !probe) return null;
  return { site: decodeName(site), probe: decodeName(probe), quantity: quantity.data };
}

/** The one row of each series of a first or a last. */
export function toEnds(answer: readonly InfluxSeries[]): { ref: SeriesRef; atMs: number; value: number }[] {
  return answer.flatMap((series) => {
    const ref = seriesOf(series);
    const row = series.values[0];
    return ref && row ? [{ ref, atMs: numberIn(row[0]), value: numberIn(row[1]) }] : [];
  });
}

export function toReadings(quantity: Quantity, answer: readonly InfluxSeries[]): Reading[] {
  return answer.flatMap(({ columns, values }) => {
    const [value, probe, site] = ['value', 'probe', 'site'].map((name) => columns.indexOf(name)) as [
      number,
      number,
      number,
    ];
    return values.map((row) => ({
      site: decodeName(String(row[site])),
      probe: decodeName(String(row[probe])),
      quantity,
      atMs: numberIn(row[0]),
      value: numberIn(row[value]),
    }));
  });
}

export function toBuckets(answer: readonly InfluxSeries[]): BucketColumns {
  const rows = answer.flatMap(({ values }) => values).filter((row) => row[1] !== null && row[1] !== 0);
  const column = (index: number) => Float64Array.from(rows, (row) => numberIn(row[index]));
  const [startMs, count, min, max, sum] = [column(0), column(1), column(2), column(3), column(4)];
  // Sums round, so that the mean of equal values could come out a hair beside them.
  const mean = Float64Array.from(sum, (total, index) => {
    const [least, most] = [min[index] as number, max[index] as number];
    return Math.min(most, Math.max(least, total / (count[index] as number)));
  });
  return { startMs, min, mean, max, count };
}

/** A key for a series as the database names it. */
export function keyOf({ site, probe, quantity }: SeriesRef): string {
  return `${quantity} ${encodeName(site)} ${encodeName(probe)}`;
}
