/**
 * From rows to records: the plain columns by the table's schema, JSON columns by the schema of what they hold.
 *
 * What cannot be read is noted and left out, so that one bad row costs nothing but itself. Where something usual can
 * stand in for a column, the rest of the row is used and the column is noted.
 */
import type { z } from 'zod';
import { type FieldIssue, fieldFault } from '../../messages/field-fault.ts';
import { message } from '../../messages/message.ts';
import { plainEnglish } from '../../messages/render.ts';
import { type UnreadableRow, UnreadableRowError, type UnreadableRows } from '../unreadable.ts';
import { pileOfRow, type ReadTable, rowId, rowSchemas } from './row-schemas.ts';
import type { JournalTables } from './tables.ts';

/** Reads a JSON column; with a stand-in, what cannot be read costs only the column. */
type ReadJson = <T>(column: string, text: unknown, schema: z.ZodType<T>, standIn?: T) => T;

/** How the rows of a table become records. */
export interface RowPlan<Table extends ReadTable, Kept> {
  readonly table: Table;
  toRecord(row: JournalTables[Table], json: ReadJson): Kept;
  /** What may stand in for plain columns that cannot be read. */
  standIns?(row: JournalTables[Table]): Partial<JournalTables[Table]>;
}

export type RowRead<Kept> = { readonly record: Kept } | { readonly unreadable: UnreadableRow };

/** A column cannot be read, and nothing can stand in for it; the message stands after the column's name. */
export class ColumnError extends Error {
  readonly column: string;
  constructor(column: string, reason: string) {
    super(reason);
    this.column = column;
  }
}

export class RowReader {
  readonly #unreadable: UnreadableRows;

  constructor(unreadable: UnreadableRows) {
    this.#unreadable = unreadable;
  }

  /** Those that can be read, in their order. */
  all<Table extends ReadTable, Kept>(plan: RowPlan<Table, Kept>, rows: readonly JournalTables[Table][]): Kept[] {
    return rows.flatMap((row) => {
      const read = this.read(plan, row);
      return 'record' in read ? [read.record] : [];
    });
  }

  /** One that was asked for. @throws {UnreadableRowError} */
  one<Table extends ReadTable, Kept>(
    plan: RowPlan<Table, Kept>,
    row: JournalTables[Table] | undefined,
  ): Kept | undefined {
    if (row === undefined) return undefined;
    const read = this.read(plan, row);
    if ('record' in read) return read.record;
    throw new UnreadableRowError(read.unreadable);
  }

  /** One without which whoever asks goes on as if it were not there: nobody gets in by it. */
  ifReadable<Table extends ReadTable, Kept>(
    plan: RowPlan<Table, Kept>,
    row: JournalTables[Table] | undefined,
  ): Kept | undefined {
    if (row === undefined) return undefined;
    const read = this.read(plan, row);
    return 'record' in read ? read.record : undefined;
  }

  /** A single JSON value. @throws {UnreadableRowError} */
  value<T>(table: string, id: string, column: string, text: string, schema: z.ZodType<T>): T {
    try {
      const value = fromJson(column, text, schema);
      this.#unreadable.wasRead(table, () => id);
      return value;
    } catch (error) {
      if (!(error instanceof ColumnError)) throw error;
      const row = { table, id, column, reason: error.message, pileId: null, partly: false };
      this.#unreadable.note(row);
      throw new UnreadableRowError(row);
    }
  }

  read<Table extends ReadTable, Kept>(plan: RowPlan<Table, Kept>, row: JournalTables[Table]): RowRead<Kept> {
    const { table } = plan;
    const missed: { column: string; reason: string }[] = [];
    const note = (column: string, reason: string, partly: boolean): UnreadableRow => {
      const found = { table, id: rowId(table, row), column, reason, pileId: pileOfRow(table, row), partly };
      this.#unreadable.note(found);
      return found;
    };
    const json: ReadJson = (column, text, schema, standIn) => {
      try {
        return fromJson(column, text, schema);
      } catch (error) {
        if (standIn === undefined || !(error instanceof ColumnError)) throw error;
        missed.push({ column, reason: error.message });
        return standIn;
      }
    };
    try {
      const record = plan.toRecord(wholeRow(plan, row, missed), json);
      const [first] = missed;
      if (first) note(first.column, first.reason, true);
      else this.#unreadable.wasRead(table, () => rowId(table, row));
      return { record };
    } catch (error) {
      if (!(error instanceof ColumnError)) throw error;
      return { unreadable: note(error.column, error.message, false) };
    }
  }
}

function wholeRow<Table extends ReadTable, Kept>(
  { table, standIns }: RowPlan<Table, Kept>,
  row: JournalTables[Table],
  missed: { column: string; reason: string }[],
): JournalTables[Table] {
  const checked = rowSchemas[table].safeParse(row);
  if (checked.success) return row;
  const others = (standIns?.(row) ?? {}) as Record<string, unknown>;
  const patched: Record<string, unknown> = { ...(row as object) };
  for (const issue of checked.error.issues) {
    const column = String(issue.path[0] ?? '');
    if (!(column in others)) throw new ColumnError(column, `is not what it should be: ${plainReason(issue)}`);
    patched[column] = others[column];
    missed.push({ column, reason: `is not what it should be: ${plainReason(issue)}` });
  }
  return patched as unknown as JournalTables[Table];
}

function fromJson<T>(column: string, text: unknown, schema: z.ZodType<T>): T {
  let value: unknown;
  try {
    value = JSON.parse(String(text));
  } catch {
    throw new ColumnError(column, 'is no JSON');
  }
  const read = schema.safeParse(value);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  const at = issue?.path.length ? ` at /${issue.path.join('/')}` : '';
  throw new ColumnError(column, `is not what it should be${at}: ${plainReason(issue)}`);
}

/** Says what was expected, never what stands there: that may be a person's. */
const plainReason = (issue: FieldIssue | undefined) =>
  plainEnglish(issue === undefined ? message('field.other-kind') : fieldFault(issue)).slice(0, 120);
