import type { Reading } from '../../reading.ts';
import type { InfluxClient } from './influx-client.ts';
import type { KnownLast, KnownLasts } from './known-last.ts';
import { toValues, valuesQuestion } from './questions.ts';
import type { FoundValues } from './sort-out.ts';

/** Late times nearer together than this are asked for by one question. */
const oneQuestionMs = 3_600_000;

/** What is kept at these times of these series. */
export async function valuesAt(
  client: Pick<InfluxClient, 'query'>,
  times: ReadonlyMap<KnownLast, number[]>,
): Promise<FoundValues> {
  const asked: { series: KnownLast; question: string }[] = [];
  for (const [series, ofSeries] of times) {
    for (const [fromMs, throughMs] of stretches(ofSeries)) {
      asked.push({ series, question: valuesQuestion(series, fromMs, throughMs) });
    }
  }
  const found = new Map<KnownLast, Map<number, number>>();
  const answers = await client.query(asked.map(({ question }) => question));
  for (const [index, { series }] of asked.entries()) {
    const values = toValues(answers[index] ?? []);
    const known = found.get(series);
    if (known === undefined) found.set(series, values);
    else for (const [atMs, value] of values) known.set(atMs, value);
  }
  return found;
}

/** A refused batch may be there in part: names what is not, so that a person can mend it. */
export async function whichIsMissing(
  client: Pick<InfluxClient, 'query'>,
  lasts: KnownLasts,
  readings: readonly Reading[],
): Promise<string> {
  const times = new Map<KnownLast, number[]>();
  const series = readings.map(({ site, probe, quantity }) => lasts.findOrAdd(site, probe, quantity));
  for (const [index, one] of series.entries()) {
    times.set(one, [...(times.get(one) ?? []), (readings[index] as Reading).atMs]);
  }
  try {
    const found = await valuesAt(client, times);
    const missing = readings.filter(({ atMs }, index) => !found.get(series[index] as KnownLast)?.has(atMs));
    const first = missing[0];
    if (first === undefined) return '';
    const { site, probe, quantity, value, atMs } = first;
    return `; ${missing.length} of them are not there, first ${site}/${probe} ${quantity} ${value} at ${new Date(atMs).toISOString()}`;
  } catch {
    return '';
  }
}

/** Times gathered into stretches without long gaps, both ends included. */
function stretches(times: number[]): [fromMs: number, throughMs: number][] {
  const sorted = times.toSorted((a, b) => a - b);
  const found: [number, number][] = [];
  for (const atMs of sorted) {
    const last = found.at(-1);
    if (last !== undefined && atMs - last[1] <= oneQuestionMs) last[1] = atMs;
    else found.push([atMs, atMs]);
  }
  return found;
}
