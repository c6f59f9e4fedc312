/** Rows of a file as journal entries. */
import { createHash } from 'node:crypto';
import type { z } from 'zod';
import { clientIdSchema, newEntrySchema } from '../../../shared/contracts/journal.ts';
import { entryKinds } from '../../../shared/entry.ts';
import { fieldFault } from '../../../shared/messages/field-fault.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
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

export function entryColumnsProblem({ columns, ask }: EntryManner): Message | null {
  if (!hasTime(columns)) return message('import.no-time-column');
  if (['kind', 'note', 'temperatureC'].every((field) => columnOf(columns, field) === undefined)) {
    return message('import.no-kind-column');
  }
  return columnOf(columns, 'pile') === undefined && ask.pileId === undefined ? message('import.which-pile') : null;
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
    if (future) return { column: null, said: future };
    const named = fieldOf(columns, cells, 'pile') ?? ask.pileId ?? '';
    const pile = pileOf(named);
    if (!pile) return { column: heading(columns, 'pile'), said: message('import.no-pile', { idText: named }) };
    if (/^(yes|true|1)$/i.test(fieldOf(columns, cells, 'withdrawn') ?? '')) {
      return { column: heading(columns, 'withdrawn'), said: message('import.struck-out') };
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
        said: message('problem.in-field', {
          where: 'other',
          fieldName: field,
          faultPart: issue ? fieldFault(issue) : message('field.other-kind'),
        }),
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
  const named = fieldOf(columns, cells, 'kind') ?? (hasHeat ? 'measured' : 'note');
  const kind = kindOf(named);
  if (kind === undefined)
    return {
      column: heading(columns, 'kind'),
      said: message('import.none-of', { cellText: named, choicesText: entryKinds.join(', ') }),
    };
  // Where a thermometer was held is the core, unless the row says otherwise.
  const facts: Record<string, unknown> = { kind, ...(kind === 'measured' && { position: 'core' }) };
  for (const field of entryFactColumns) {
    const cell = fieldOf(columns, cells, field);
    if (cell === undefined) continue;
    if (field === 'temperatureC') {
      const value = temperatureC(cell, heading(columns, field) ?? '', decimalComma, ask.temperatureUnit);
      if (typeof value !== 'number') return { column: heading(columns, field), said: value };
      facts[field] = value;
    } else if (numbers.includes(field)) {
      const value = cellNumber(cell, decimalComma);
      if (typeof value !== 'number') return { column: heading(columns, field), said: value };
      facts[field] = value;
    } else if (field === 'position') facts.position = positionOf(cell) ?? cell;
    else if (field === 'smells') facts.smells = cell.split(/[;,]/).map((one) => one.trim().toLowerCase());
    else if (field === 'ready') {
      const ready = yesOrNo(cell);
      if (ready === undefined)
        return { column: heading(columns, field), said: message('import.neither', { cellText: cell }) };
      facts.ready = ready;
    } else if (field === 'pests') facts.what = cell;
    else facts[field] = cell;
  }
  return { what: facts };
}

/** Its unit stands in the cell, or in the heading, or is what the person said. @returns what is wrong with the cell. */
function temperatureC(cell: string, ofColumn: string, decimalComma: boolean, otherwise: 'C' | 'F'): number | Message {
  const [, figure = cell, written] = /^(.*?\d)\s?[°º]?\s?([CF])$/i.exec(cell.slice(0, 80)) ?? [];
  const value = cellNumber(figure, decimalComma);
  if (typeof value !== 'number') return value;
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
