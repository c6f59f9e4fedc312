/** Rows as a file that is written while it is sent. */

import { csvLine } from './csv.ts';
import type { Row, Subject } from './subjects.ts';

/** A spreadsheet takes a file for UTF-8 only when it begins so. */
const utf8Mark = '\uFEFF';
const chunkLength = 32_000;

/** Small pieces are gathered: each chunk of a stream costs more than the text in it. */
async function* coalesced(pieces: AsyncIterable<string>): AsyncGenerator<string> {
  let chunk = '';
  for await (const piece of pieces) {
    chunk += piece;
    if (chunk.length < chunkLength) continue;
    yield chunk;
    chunk = '';
  }
  if (chunk !== '') yield chunk;
}

export function csvFile(columns: Subject['columns'], rows: AsyncIterable<Row>): AsyncIterable<string> {
  return coalesced(
    (async function* () {
      yield utf8Mark + csvLine(columns);
      for await (const row of rows) yield csvLine(columns.map((column) => row[column]));
    })(),
  );
}

/** One array, a row per line, with every column of the row. */
export function jsonFile(columns: Subject['columns'], rows: AsyncIterable<Row>): AsyncIterable<string> {
  return coalesced(jsonRows(columns, rows));
}

async function* jsonRows(columns: Subject['columns'], rows: AsyncIterable<Row>): AsyncGenerator<string> {
  let before = '[\n';
  for await (const row of rows) {
    const shown = Object.fromEntries(columns.map((column) => [column, row[column] ?? null]));
    yield before + JSON.stringify(shown);
    before = ',\n';
  }
  yield before === '[\n' ? '[]' : '\n]';
}

export async function* allSubjects(
  head: Record<string, unknown>,
  subjects: readonly (readonly [name: string, columns: Subject['columns'], rows: AsyncIterable<Row>])[],
): AsyncGenerator<string> {
  yield JSON.stringify(head).slice(0, -1);
  for (const [name, columns, rows] of subjects) {
    yield `,\n${JSON.stringify(name)}: `;
    yield* jsonRows(columns, rows);
  }
  yield '}\n';
}
