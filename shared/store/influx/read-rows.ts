/**
 * shared/store/influx/read-rows.ts: raw readings of several series as one stream by time, a page at a time.
 *
 * Takes:  series, a range of time with both ends, and the size of a page.
 * Gives:  pages that never end in the middle of a time.
 */
import type { Quantity } from '../../quantity.ts';
import type { Reading } from '../../reading.ts';
import type { SeriesRef } from '../readings-store.ts';
import type { InfluxDoor } from './influx-door.ts';
import { keyOf, rowsQuestion, toReadings } from './questions.ts';

/** Series named in one question. */
const seriesPerQuestion = 200;

export async function readRows(
  door: InfluxDoor,
  series: readonly SeriesRef[],
  fromMs: number,
  throughMs: number,
  limit: number,
): Promise<Reading[]> {
  const places = new Map<string, number>();
  const distinct = series.filter((ref) => {
    const key = keyOf(ref);
    if (places.has(key)) return false;
    places.set(key, places.size);
    return true;
  });
  const groups = grouped(distinct);
  const read = async (startMs: number, endMs: number, most: number | undefined): Promise<Reading[]> => {
    const answers = await door.query(
      groups.map(([quantity, some]) => rowsQuestion(quantity, some, startMs, endMs, most)),
    );
    const rows = answers.flatMap((answer, index) => toReadings((groups[index] as Group)[0], answer));
    const placeOf = (reading: Reading) => places.get(keyOf(reading)) ?? 0;
    // One question of one series comes sorted.
    return distinct.length === 1 ? rows : rows.sort((a, b) => a.atMs - b.atMs || placeOf(a) - placeOf(b));
  };
  // One more than fits tells whether the last time is whole; what any question left out is not earlier than that one.
  const rows = await read(fromMs, throughMs, limit + 1);
  const beyond = rows[limit];
  if (beyond === undefined) return rows;
  const page = rows.slice(0, limit);
  while (page.at(-1)?.atMs === beyond.atMs) page.pop();
  return page.length > 0 ? page : read(beyond.atMs, beyond.atMs, undefined);
}

type Group = readonly [quantity: Quantity, series: readonly SeriesRef[]];

function grouped(series: readonly SeriesRef[]): Group[] {
  const byQuantity = new Map<Quantity, SeriesRef[]>();
  for (const ref of series) {
    const known = byQuantity.get(ref.quantity);
    if (known) known.push(ref);
    else byQuantity.set(ref.quantity, [ref]);
  }
  return [...byQuantity].flatMap(([quantity, all]) =>
    Array.from(
      { length: Math.ceil(all.length / seriesPerQuestion) },
      (_, index): Group => [quantity, all.slice(index * seriesPerQuestion, (index + 1) * seriesPerQuestion)],
    ),
  );
}
