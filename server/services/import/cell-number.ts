/** Numbers as people and loggers write them. */
import { type Message, message } from '../../../shared/messages/message.ts';

/** What stands in a cell where nothing was measured, but hyphens. */
const nothing: ReadonlySet<string> = new Set(['', 'n/a', 'na', 'nan', 'null', 'none', '?']);

export function isEmptyCell(cell: string | undefined): boolean {
  if (cell === undefined) return true;
  const text = cell.trim();
  return /^-*$/.test(text) || (text.length <= 4 && nothing.has(text.toLowerCase()));
}

/** The longest number that is read [characters], spaces and all; a double has 17 digits. */
const longestNumber = 60;

/**
 * @returns The number, or what is wrong with the cell.
 * @example cellNumber('1.234,5', true) // => 1234.5
 */
export function cellNumber(cell: string, decimalComma: boolean): number | Message {
  const trimmed = cell.trim();
  if (trimmed.length > longestNumber) {
    return message('import.long-number', { mostCount: longestNumber, foundCount: trimmed.length });
  }
  const text = trimmed.replace(/[\s\u00a0\u202f]/g, '').replace(/^\u2212/, '-');
  const grouped = decimalComma ? /^[+-]?\d{1,3}(\.\d{3})+(,\d+)?$/ : /^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$/;
  let plain = text;
  if (grouped.test(text)) plain = text.replace(decimalComma ? /\./g : /,/g, '');
  if (decimalComma) plain = plain.replace(',', '.');
  return /^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?$/i.test(plain)
    ? Number(plain)
    : message('import.no-number', { cellText: trimmed });
}
