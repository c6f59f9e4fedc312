/**
 * The answer of /query, checked. It never takes an answer that was cut short for a whole one. Answers are asked for in
 * pieces, as in one piece a database may leave rows out (max-row-limit), and generation 1 marks whole ones of over
 * 10,000 rows as if it had.
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

const resultSchema = z.object({
  statement_id: z.number().optional(),
  series: z.array(seriesSchema).default([]),
  error: z.string().optional(),
  partial: z.boolean().optional(),
});

/** A piece of an answer: all of it, or some rows of it. */
const pieceSchema = z.object({ results: z.array(resultSchema).default([]), error: z.string().optional() });

/**
 * @param text One JSON document, or one a line when the answer comes in pieces.
 * @throws {QueryRefused} with the reason the database gave; {StrangeAnswer} when it is no whole answer.
 */
export function readResults(text: string, statements: number): InfluxSeries[][] {
  const answers = Array.from({ length: statements }, (): InfluxSeries[] => []);
  const goesOn = new Array<boolean>(statements).fill(true);
  for (const line of text.split('\n')) {
    if (line.trim() === '') continue;
    const { results, error } = readPiece(line);
    for (const [index, result] of results.entries()) {
      const reason = error ?? result.error;
      if (reason !== undefined) throw new QueryRefused(reason);
      const question = result.statement_id ?? index;
      const answer = answers[question];
      if (answer === undefined) throw new StrangeAnswer(`a result to a question that nobody asked: ${question}`);
      for (const series of result.series) addPiece(answer, series);
      goesOn[question] = result.partial === true;
    }
    if (error !== undefined) throw new QueryRefused(error);
  }
  const missing = goesOn.indexOf(true);
  if (missing >= 0) throw new StrangeAnswer(`only a part of the answer to question ${missing + 1} of ${statements}`);
  return answers;
}

function readPiece(line: string): z.output<typeof pieceSchema> {
  const parsed = pieceSchema.safeParse(parseJson(line));
  if (parsed.success) return parsed.data;
  throw new StrangeAnswer(`something that is no answer to a query: ${line.trim().slice(0, 120)}`);
}

/** A series that is longer than one piece goes on in the next. */
function addPiece(answer: InfluxSeries[], series: InfluxSeries): void {
  const last = answer.at(-1);
  if (last?.partial === true && last.name === series.name && sameTags(last.tags, series.tags)) {
    for (const row of series.values) last.values.push(row);
    last.partial = series.partial;
  } else {
    answer.push(series);
  }
}

function sameTags(a: Record<string, string>, b: Record<string, string>): boolean {
  const names = Object.keys(a);
  return names.length === Object.keys(b).length && names.every((name) => a[name] === b[name]);
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
