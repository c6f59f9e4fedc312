/** Raw readings of several series as one stream by time, a page at a time. */
import type { Quantity } from '../../quantity.ts';
import { getOrMake } from '../readings/get-or-make.ts';
import type { KeptReading, SeriesRef } from '../readings-store.ts';
import type { InfluxClient } from './influx-client.ts';
import { keyOf, rowsQuestion, toReadings } from './questions.ts';

/**
 * A page is looked for in a window first that doubles while it is not full: a database opens every piece of time that
 * the question reaches over, however few rows are wanted. Its pieces are weeks, if nobody changed it.
 */
const firstWindowMs = 7 * 86_400_000;

/** Series named in one question. */
const seriesPerQuestion = 200;

/** Series that one question can be about: of one quantity, and downsampled as far. */
interface Group {
  readonly quantity: Quantity;
  readonly watermarkMs: number;
  readonly series: readonly SeriesRef[];
}

export async function readRows(
  client: InfluxClient,
  series: readonly SeriesRef[],
  watermarkOf: (ref: SeriesRef) => number,
  fromMs: number,
  throughMs: number,
  limit: number,
): Promise<KeptReading[]> {
  const order = new Map<string, number>();
  const distinct = series.filter((ref) => {
    const key = keyOf(ref);
    if (order.has(key)) return false;
    order.set(key, order.size);
    return true;
  });
  const groups = grouped(distinct, watermarkOf);
  const read = async (startMs: number, endMs: number, most: number | undefined): Promise<KeptReading[]> => {
    const asked = groups.flatMap((group) => questionsOf(group, startMs, endMs, most));
    const answers = await client.query(asked.map(({ question }) => question));
    const rows = asked.flatMap(({ quantity, downsampled }, index) =>
      toReadings(quantity, answers[index] ?? [], downsampled),
    );
    const indexOf = (reading: KeptReading) => order.get(keyOf(reading)) ?? 0;
    // Stand-ins come before rows, so the questions of one series come sorted.
    return distinct.length === 1 ? rows : rows.sort((a, b) => a.atMs - b.atMs || indexOf(a) - indexOf(b));
  };
  // One more than fits tells whether the last time is whole; what any question left out is not earlier than that one.
  const rows: KeptReading[] = [];
  let windowMs = firstWindowMs;
  for (let startMs = fromMs; startMs <= throughMs && rows.length <= limit; ) {
    const endMs = Math.min(startMs + windowMs - 1, throughMs);
    for (const row of await read(startMs, endMs, limit + 1)) rows.push(row);
    startMs = endMs + 1;
    windowMs *= 2;
  }
  const beyond = rows[limit];
  if (beyond === undefined) return rows;
  const page = rows.slice(0, limit);
  while (page.at(-1)?.atMs === beyond.atMs) page.pop();
  return page.length > 0 ? page : read(beyond.atMs, beyond.atMs, undefined);
}

function questionsOf(
  { quantity, watermarkMs, series }: Group,
  fromMs: number,
  throughMs: number,
  limit: number | undefined,
) {
  const asked: { quantity: Quantity; downsampled: boolean; question: string }[] = [];
  const add = (startMs: number, endMs: number, downsampled: boolean) => {
    if (startMs > endMs) return;
    asked.push({ quantity, downsampled, question: rowsQuestion(quantity, series, startMs, endMs, limit, downsampled) });
  };
  add(fromMs, Math.min(throughMs, watermarkMs - 1), true);
  add(Math.max(fromMs, watermarkMs), throughMs, false);
  return asked;
}

function grouped(series: readonly SeriesRef[], watermarkOf: (ref: SeriesRef) => number): Group[] {
  const alike = new Map<string, { quantity: Quantity; watermarkMs: number; series: SeriesRef[] }>();
  for (const ref of series) {
    const { quantity } = ref;
    const watermarkMs = watermarkOf(ref);
    getOrMake(alike, `${quantity} ${watermarkMs}`, () => ({ quantity, watermarkMs, series: [] })).series.push(ref);
  }
  return [...alike.values()].flatMap((group) =>
    Array.from({ length: Math.ceil(group.series.length / seriesPerQuestion) }, (_, index) => ({
      ...group,
      series: group.series.slice(index * seriesPerQuestion, (index + 1) * seriesPerQuestion),
    })),
  );
}
