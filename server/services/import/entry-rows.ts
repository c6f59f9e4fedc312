/** Rows of a file as journal entries. */
import { createHash } from 'node:crypto';
import type { z } from 'zod';
import { clientIdSchema, newEntrySchema } from '../../../shared/contracts/journal.ts';
import { entryKinds } from '../../../shared/entry.ts';
import type { PileRecord } from '../../../shared/store/journal.ts';
import { fahrenheitToCelsius } from '../../../shared/units.ts';
import { timeProblem } from '../journal/journal-service.ts';
import { entryFactColumns } from '../records/export/subjects.ts';
import { cellNumber } from './cell-number.ts';
import { kindOf, positionOf } from './entry-synonyms.ts';
import { headingDegrees } from './heading-words.ts';
import { type Columns, columnOf, fieldOf, hasTime, type ImportAskRead, type Refusal, rowTime } from './row-reader.ts';

export interface EntryManner {
  readonly columns: Columns;
  readonly ask: ImportAskRead;
  readonly decimalComma: boolean;
  readonly piles: readonly PileRecord[];
  readonly nowMs: number;
}

export interface ImportedEntry {
  readonly pileId: string;
  readonly entry: z.output<typeof newEntrySchema> & { readonly id: string; readonly at: number };
}

export function entryColumnsProblem({ columns, ask }: EntryManner): string | null {
  if (!hasTime(columns)) return 'No column says when: name one "time", or say which it is.';
  if (['kind', 'note', 'temperatureC'].every((field) => columnOf(columns, field) === undefined)) {
    return 'No column says what was done: name one "kind", one "note", or one "temperature".';
  }
  return columnOf(columns, 'pile') === undefined && ask.pileId === undefined
    ? 'Say which pile the entries are of.'
    : null;
}

const numbers: readonly string[] = ['moisturePct', 'amountL', 'depthM', 'rainMm', 'wetG', 'dryG'];

export function entryReader(manner: EntryManner): (cells: readonly string[]) => ImportedEntry | Refusal {
  const { columns, ask, piles, nowMs } = manner;
  const pileOf = (text: string) =>
    piles.find(({ id }) => id === text) ?? piles.find(({ name }) => name.toLowerCase() === text.toLowerCase());
  return (cells) => {
    const at = rowTime(columns, cells);
    if (typeof at !== 'number') return at;
    const future = timeProblem(at, nowMs);
    if (future) return { column: null, reason: `its time ${future}` };
    const named = fieldOf(columns, cells, 'pile') ?? ask.pileId ?? '';
    const pile = pileOf(named);
    if (!pile) return { column: heading(columns, 'pile'), reason: `there is no pile "${named}"` };
    if (/^(yes|true|1)$/i.test(fieldOf(columns, cells, 'withdrawn') ?? '')) {
      return { column: heading(columns, 'withdrawn'), reason: 'was struck out' };
    }
    const facts = factsOf(manner, cells);
    if (!('what' in facts)) return facts;
    const { what } = facts;
    const note = fieldOf(columns, cells, 'note');
    const by = fieldOf(columns, cells, 'by');
    const photoIds = (fieldOf(columns, cells, 'photos') ?? '')
      .split(';')
      .map((id) => id.trim())
      .filter(Boolean);
    const given = { at, what, photoIds, ...(note !== undefined && { note }), ...(by !== undefined && { by }) };
    const read = newEntrySchema.safeParse(given);
    if (!read.success) {
      const [issue] = read.error.issues;
      const field = String(issue?.path.at(-1) ?? '');
      return {
        column: heading(columns, field === 'what' ? 'pests' : field),
        reason: `${field}: ${issue?.message ?? 'not valid'}`,
      };
    }
    const id = ownId(fieldOf(columns, cells, 'id')) ?? idOfRow(pile.id, read.data);
    return { pileId: pile.id, entry: { ...read.data, at, id } };
  };
}

function factsOf(
  { columns, decimalComma, ask }: EntryManner,
  cells: readonly string[],
): { what: Record<string, unknown> } | Refusal {
  const hasHeat = fieldOf(columns, cells, 'temperatureC') !== undefined;
  const said = fieldOf(columns, cells, 'kind') ?? (hasHeat ? 'measured' : 'note');
  const kind = kindOf(said);
  if (kind === undefined)
    return { column: heading(columns, 'kind'), reason: `"${said}" is none of ${entryKinds.join(', ')}` };
  // Where a thermometer was held is the core, unless the row says otherwise.
  const facts: Record<string, unknown> = { kind, ...(kind === 'measured' && { position: 'core' }) };
  for (const field of entryFactColumns) {
    const cell = fieldOf(columns, cells, field);
    if (cell === undefined) continue;
    if (field === 'temperatureC') {
      const value = temperatureC(cell, heading(columns, field) ?? '', decimalComma, ask.temperatureUnit);
      if (typeof value === 'string') return { column: heading(columns, field), reason: value };
      facts[field] = value;
    } else if (numbers.includes(field)) {
      const value = cellNumber(cell, decimalComma);
      if (typeof value === 'string') return { column: heading(columns, field), reason: value };
      facts[field] = value;
    } else if (field === 'position') facts.position = positionOf(cell) ?? cell;
    else if (field === 'smells') facts.smells = cell.split(/[;,]/).map((one) => one.trim().toLowerCase());
    else if (field === 'ready') {
      const ready = yesOrNo(cell);
      if (ready === undefined) return { column: heading(columns, field), reason: `"${cell}" is neither yes nor no` };
      facts.ready = ready;
    } else if (field === 'pests') facts.what = cell;
    else facts[field] = cell;
  }
  return { what: facts };
}

/** Its unit stands in the cell, or in the heading, or is what the person said. @returns what is wrong with the cell, as text. */
function temperatureC(cell: string, ofColumn: string, decimalComma: boolean, otherwise: 'C' | 'F'): number | string {
  const [, figure = cell, written] = /^(.*?\d)\s?[°º]?\s?([CF])$/i.exec(cell.slice(0, 80)) ?? [];
  const value = cellNumber(figure, decimalComma);
  if (typeof value === 'string') return value;
  const own = ofColumn === 'temperatureC' ? 'C' : headingDegrees(ofColumn);
  const unit = written?.toUpperCase() ?? own ?? otherwise;
  return unit === 'F' ? Math.round(100 * fahrenheitToCelsius(value)) / 100 : value;
}

function yesOrNo(cell: string): boolean | undefined {
  if (/^(yes|true|1)$/i.test(cell)) return true;
  return /^(no|false|0)$/i.test(cell) ? false : undefined;
}

/** Ids of our own exports are kept, so that a file taken back in is known. */
function ownId(text: string | undefined): string | undefined {
  return clientIdSchema.safeParse(text).data;
}

/** The same row has the same id whenever it is taken in. */
function idOfRow(pileId: string, entry: z.output<typeof newEntrySchema>): string {
  return `row-${createHash('sha256')
    .update(JSON.stringify([pileId, entry]))
    .digest('hex')
    .slice(0, 40)}`;
}

function heading(columns: Columns, field: string): string | null {
  return columns.headings[columnOf(columns, field) ?? -1] ?? null;
}
