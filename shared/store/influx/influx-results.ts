/**
 * shared/store/influx/influx-results.ts: the answer of /query, checked.
 *
 * Takes:  the text of an answer, and how many statements were asked.
 * Gives:  per statement its series, each with its tags and rows.
 * Never:  takes an answer that was cut short for a whole one.
 */
import { z } from 'zod';
import { QueryRefused, StrangeAnswer } from './influx-error.ts';

const seriesSchema = z.object({
  name: z.string().default(''),
  tags: z.record(z.string(), z.string()).default({}),
  columns: z.array(z.string()),
  values: z.array(z.array(z.union([z.number(), z.string(), z.null(), z.boolean()]))).default([]),
  partial: z.boolean().optional(),
});
export type InfluxSeries = z.infer<typeof seriesSchema>;
export type InfluxCell = InfluxSeries['values'][number][number] | undefined;

const answerSchema = z.object({
  results: z
    .array(
      z.object({
        series: z.array(seriesSchema).default([]),
        error: z.string().optional(),
        partial: z.boolean().optional(),
      }),
    )
    .default([]),
  error: z.string().optional(),
});

/** @throws {QueryRefused} with the reason the database gave; {StrangeAnswer} when it is no whole answer. */
export function readResults(text: string, statements: number): InfluxSeries[][] {
  const parsed = answerSchema.safeParse(parseJson(text));
  if (!parsed.success) throw new StrangeAnswer(`something that is no answer to a query: ${text.trim().slice(0, 120)}`);
  const { results, error } = parsed.data;
  const reason = error ?? results.find((result) => result.error !== undefined)?.error;
  if (reason !== undefined) throw new QueryRefused(reason);
  if (results.length !== statements) throw new StrangeAnswer(`${results.length} results to ${statements} questions`);
  return results.map(({ series, partial }) => {
    if (partial || series.some((one) => one.partial)) {
      throw new StrangeAnswer('only a part of the rows: its setting max-row-limit must be 0');
    }
    return series;
  });
}

/** @throws {StrangeAnswer} when the cell holds no number. */
export function numberIn(cell: InfluxCell): number {
  if (typeof cell !== 'number') throw new StrangeAnswer(`a value that is no number: ${JSON.stringify(cell)}`);
  return cell;
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
