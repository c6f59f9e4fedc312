/**
 * A CSV file as people's programs write it: any of three delimiters, a decimal point or comma. It never holds all rows
 * at once: they are read as they are asked for.
 */
import { Readable } from 'node:stream';
import { setImmediate } from 'node:timers/promises';
import { parse } from 'csv-parse';
import { parse as parseAll } from 'csv-parse/sync';
import { importLimits } from '../../../shared/contracts/import.ts';
import { message } from '../../../shared/messages/message.ts';
import { withoutGuard } from '../records/export/csv.ts';
import { CsvError } from './csv-error.ts';

export interface CsvTable {
  readonly delimiter: string;
  readonly decimalComma: boolean;
  readonly headings: readonly string[];
  /** The first rows, to guess by. */
  readonly sample: readonly (readonly string[])[];
  rows(): AsyncIterable<CsvRow>;
}

export interface CsvRow {
  /** Counted from 1, the heading included. */
  readonly line: number;
  readonly cells: readonly string[];
}

const delimiters = [',', ';', '\t'] as const;
const sampleRows = 200;
const pieceLength = 32_000;

function options(delimiter: string) {
  return {
    bom: true,
    delimiter,
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: true,
    info: true,
    max_record_size: 100_000,
  } as const;
}

interface Parsed {
  readonly record: string[];
  readonly info: { readonly lines: number };
}

/** @throws {CsvError} When there is no heading, or the quotation marks do not match. */
export function readCsvTable(text: string): CsvTable {
  const delimiter = likeliestDelimiter(text);
  const first = headOf(text, delimiter);
  const headings = unlike((first[0]?.record ?? []).map((heading) => withoutGuard(heading).trim()));
  if (headings.length === 0) throw new CsvError(message('import.no-heading'));
  if (headings.length > importLimits.columns) {
    throw new CsvError(
      message('import.too-many-columns', { columnsCount: headings.length, mostCount: importLimits.columns }),
    );
  }
  const sample = first.slice(1).map(({ record }) => record.map(withoutGuard));
  // A comma between digits is a decimal comma only where it does not part the cells.
  const decimalComma =
    delimiter !== ',' && sample.some((cells) => cells.some((cell) => /^\s*[+-]?\d+,\d+\s*$/.test(cell)));
  return { delimiter, decimalComma, headings, sample, rows: () => rowsOf(text, delimiter) };
}

async function* rowsOf(text: string, delimiter: string): AsyncGenerator<CsvRow> {
  let isHeading = true;
  let countedTwice = 0;
  try {
    const parser = Readable.from(pieces(text)).compose(parse(options(delimiter)));
    for await (const { record, info } of parser as AsyncIterable<Parsed>) {
      // The parser counts CR and LF within a cell as a line each.
      for (const cell of record) if (cell.includes('\r\n')) countedTwice += cell.split('\r\n').length - 1;
      if (!isHeading) yield { line: info.lines - countedTwice, cells: record.map(withoutGuard) };
      isHeading = false;
    }
  } catch (error) {
    throw unreadable(error);
  }
}

/** A little at a time, and the server goes on with its other work between: readings come in while a file is read. */
async function* pieces(text: string): AsyncGenerator<string> {
  for (let at = 0, end = 0; at < text.length; at = end) {
    end = Math.min(at + pieceLength, text.length);
    // Never between the two halves of one character.
    if (/[\uD800-\uDBFF]/.test(text.charAt(end - 1))) end += 1;
    yield text.slice(at, end);
    await setImmediate();
  }
}

/** The heading and the first rows, from no more of the text than they need. */
function headOf(text: string, delimiter: string): Parsed[] {
  try {
    return parseAll(text, { ...options(delimiter), to: sampleRows + 1 }) as unknown as Parsed[];
  } catch (error) {
    throw unreadable(error);
  }
}

/** The one that parts the first line, outside quotation marks, into most cells. */
function likeliestDelimiter(text: string): string {
  const end = text.search(/[\r\n]/);
  const line = (end < 0 ? text : text.slice(0, end)).replace(/"[^"]*"/g, '');
  const counts = delimiters.map((delimiter) => line.split(delimiter).length);
  return delimiters[counts.indexOf(Math.max(...counts))] ?? ',';
}

/** A heading that comes twice gets its number: "temperature", "temperature (2)". */
function unlike(headings: readonly string[]): string[] {
  const seen = new Map<string, number>();
  return headings.map((heading) => {
    const count = (seen.get(heading) ?? 0) + 1;
    seen.set(heading, count);
    return count === 1 ? heading : `${heading} (${count})`;
  });
}

function unreadable(error: unknown): CsvError {
  const why = error instanceof Error ? error.message : String(error);
  return new CsvError(message('import.no-table', { reasonText: why.replace(/\.$/, '') }), { cause: error });
}
