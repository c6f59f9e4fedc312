/** Rows of a file as readings: one to a row, or one to a column. */

import { checkedValue } from '../../../ingest/decode/checked-value.ts';
import { createPowerOnGuard } from '../../../ingest/decode/power-on-guard.ts';
import { checkedTime } from '../../../ingest/decode/reading-time.ts';
import { ReadingError } from '../../../shared/errors.ts';
import { isHandProbe } from '../../../shared/hand-series.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import { namePattern } from '../../../shared/names.ts';
import { type Quantity, quantityFacts } from '../../../shared/quantity.ts';
import type { Reading } from '../../../shared/reading.ts';
import { idFromName } from '../../id-from-name.ts';
import { cellNumber, isEmptyCell } from './cell-number.ts';
import { unitName } from './column-guess.ts';
import { namedQuantity } from './heading-words.ts';
import { type Columns, columnOf, fieldOf, hasTime, type ImportAskRead, type Refusal, rowTime } from './row-reader.ts';

export interface ReadingManner {
  readonly columns: Columns;
  readonly ask: ImportAskRead;
  readonly decimalComma: boolean;
  readonly sites: ReadonlySet<string>;
  readonly nowMs: number;
}

/** What the columns lack; null when they suffice. */
export function readingColumnsProblem({ columns, ask }: ReadingManner): Message | null {
  if (!hasTime(columns)) return message('import.no-time-column');
  const long = columnOf(columns, 'value') !== undefined;
  const wide = columns.meanings.some((meaning) => meaning.as === 'value');
  if (!long && !wide) return message('import.no-value-column');
  if (long && columnOf(columns, 'quantity') === undefined) return message('import.no-quantity-column');
  if (columnOf(columns, 'site') === undefined && ask.site === undefined) return message('import.which-site');
  const named = columnOf(columns, 'probe') !== undefined || ask.probe !== undefined;
  const bare = columns.meanings.some((meaning) => meaning.as === 'value' && meaning.probe === undefined);
  return !named && (long || bare) ? message('import.which-probe') : null;
}

/** One cell to be read. */
interface Found {
  readonly heading: string | null;
  readonly quantity: Quantity;
  readonly probe: string | undefined;
  readonly unit: string | undefined;
  readonly cell: string;
}

/** What a row holds; one bad cell does not spoil the others. */
export interface ReadRow {
  readonly readings: readonly Reading[];
  readonly refused: readonly Refusal[];
}

/** @returns A reader that remembers what each probe said, so that it can tell a chip's first word from a hot heap. */
export function readingReader(manner: ReadingManner): (cells: readonly string[]) => ReadRow | Refusal {
  const powerOn = createPowerOnGuard();
  const { columns, ask, sites, nowMs } = manner;
  return (cells) => {
    const atMs = rowTime(columns, cells);
    if (typeof atMs !== 'number') return atMs;
    const dated = checkedTime(atMs, { nowMs, retained: false }, { place: 'row-time' }, new Date(atMs).toISOString());
    if (dated instanceof ReadingError) return { column: null, said: dated.said };
    const site = fieldOf(columns, cells, 'site') ?? ask.site ?? '';
    if (!sites.has(site))
      return { column: headingOf(columns, 'site'), said: message('import.no-site', { idText: site }) };
    const found = foundIn(columns, cells);
    if ('said' in found) return found;
    if (found.length === 0) return { column: null, said: message('import.no-value') };

    const readings: Reading[] = [];
    const refused: Refusal[] = [];
    for (const one of found) {
      const read = readCell(one, manner, { site, atMs, probe: fieldOf(columns, cells, 'probe') ?? ask.probe });
      if ('said' in read) refused.push(read);
      else if (read.quantity === 'temperature' && !powerOn.accepts(read)) {
        refused.push({ column: one.heading, said: message('import.power-on', { powerOnC: read.value }) });
      } else readings.push(read);
    }
    const [first] = refused;
    return readings.length === 0 && refused.length === 1 && first ? first : { readings, refused };
  };
}

function readCell(
  { heading, quantity, probe: own, unit, cell }: Found,
  { columns, ask, decimalComma }: ReadingManner,
  row: { site: string; atMs: number; probe: string | undefined },
): Reading | Refusal {
  const named = own ?? row.probe ?? '';
  if (named === '') return { column: headingOf(columns, 'probe'), said: message('import.no-probe') };
  if (isHandProbe(named)) {
    // Of a file of our own: taken in with its entry, else it would be a probe that nobody has.
    return { column: headingOf(columns, 'probe'), said: message('import.by-hand') };
  }
  const probe = namePattern.test(named) ? named : idFromName(named);
  const value = cellNumber(cell, decimalComma);
  if (typeof value !== 'number') return { column: heading, said: value };
  const assumed = quantity === 'temperature' ? ask.temperatureUnit : undefined;
  const checked = checkedValue(quantity, value, unit ?? assumed, heading ?? 'value');
  if (checked instanceof ReadingError) return { column: heading, said: checked.said };
  return { site: row.site, probe, quantity, atMs: row.atMs, value: checked };
}

function foundIn(columns: Columns, cells: readonly string[]): Found[] | Refusal {
  const found: Found[] = [];
  columns.meanings.forEach((meaning, i) => {
    const cell = cells[i];
    if (meaning.as !== 'value' || cell === undefined || isEmptyCell(cell)) return;
    const { quantity, probe, unit } = meaning;
    found.push({ heading: columns.headings[i] ?? null, quantity, probe, unit, cell });
  });
  const cell = fieldOf(columns, cells, 'value');
  if (cell === undefined) return found;
  const named = fieldOf(columns, cells, 'quantity') ?? '';
  const quantity = namedQuantity(named);
  if (quantity === undefined) {
    const known = Object.keys(quantityFacts).join(', ');
    return {
      column: headingOf(columns, 'quantity'),
      said: message('import.none-of', { cellText: named, choicesText: known }),
    };
  }
  const unit = fieldOf(columns, cells, 'unit');
  return [
    ...found,
    { heading: headingOf(columns, 'value'), quantity, probe: undefined, unit: unit && unitName(unit), cell },
  ];
}

function headingOf(columns: Columns, field: string): string | null {
  return columns.headings[columnOf(columns, field) ?? -1] ?? null;
}
