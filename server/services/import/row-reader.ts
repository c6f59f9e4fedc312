/** What both imports share: columns with their meanings, and the time of a row. */
import type { z } from 'zod';
import { type ColumnMeaning, type importAskSchema, importLimits } from '../../../shared/contracts/import.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import { knownZone } from '../known-zone.ts';
import { isEmptyCell } from './cell-number.ts';
import { cellTime, shownDateOrder, type TimeManner } from './cell-time.ts';
import { guessMeaning } from './column-guess.ts';
import type { CsvTable } from './csv-table.ts';

export type ImportAskRead = z.output<typeof importAskSchema>;

/** One reason why a row, or a cell of it, is not taken. */
export interface Refusal {
  readonly column: string | null;
  readonly said: Message;
}

export interface Columns {
  readonly headings: readonly string[];
  readonly meanings: readonly ColumnMeaning[];
  readonly manner: TimeManner;
}

export function columnsOf(table: CsvTable, ask: ImportAskRead): Columns {
  const said = new Map(Object.entries(ask.columns));
  let meanings = table.headings.map((heading) => said.get(heading) ?? guessMeaning(heading, ask.kind));
  const has = (field: string) => meanings.some((meaning) => isField(meaning, field));
  // Beside a column of days, "time" is the time of day.
  if (has('date') && has('time') && !has('clock')) {
    meanings = meanings.map((meaning) => (isField(meaning, 'time') ? { as: 'field', field: 'clock' } : meaning));
  }
  const timeCells = table.sample.flatMap((cells) =>
    cells.filter((_, i) => isField(meanings[i], 'time') || isField(meanings[i], 'date')),
  );
  const manner = { timeZone: knownZone(ask.timeZone), dateOrder: ask.dateOrder ?? shownDateOrder(timeCells) };
  return { headings: table.headings, meanings, manner };
}

function isField(meaning: ColumnMeaning | undefined, field: string): boolean {
  return meaning?.as === 'field' && meaning.field === field;
}

export function columnOf({ meanings }: Columns, field: string): number | undefined {
  const index = meanings.findIndex((meaning) => isField(meaning, field));
  return index < 0 ? undefined : index;
}

/** The text of a field; undefined when the row does not have it. */
export function fieldOf(columns: Columns, cells: readonly string[], field: string): string | undefined {
  const index = columnOf(columns, field);
  const cell = index === undefined ? undefined : cells[index];
  return isEmptyCell(cell) ? undefined : cell?.trim();
}

/** The first cell that is longer than any we read, in a column that means something; undefined where none is. */
export function longCell({ headings, meanings }: Columns, cells: readonly string[]): Refusal | undefined {
  const index = cells.findIndex(
    (cell, i) => cell.length > importLimits.cell && (meanings[i] ?? { as: 'ignored' }).as !== 'ignored',
  );
  if (index < 0) return undefined;
  const length = cells[index]?.length ?? 0;
  const said = message('import.long-cell', { mostCount: importLimits.cell, foundCount: length });
  return { column: headings[index] ?? null, said };
}

/** When the row happened, from one column or from day and clock. */
export function rowTime(columns: Columns, cells: readonly string[]): number | Refusal {
  const date = fieldOf(columns, cells, 'date');
  const clock = fieldOf(columns, cells, 'clock');
  const whole = fieldOf(columns, cells, 'time') ?? (date && clock ? `${date} ${clock}` : date);
  const column = columns.headings[columnOf(columns, 'time') ?? columnOf(columns, 'date') ?? -1] ?? null;
  if (whole === undefined) return { column, said: message('import.no-time') };
  const atMs = cellTime(whole, columns.manner);
  return typeof atMs === 'number' ? atMs : { column, said: atMs };
}

export function hasTime(columns: Columns): boolean {
  return columnOf(columns, 'time') !== undefined || columnOf(columns, 'date') !== undefined;
}
