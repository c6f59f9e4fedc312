/**
 * server/import/cell-number.ts: numbers as people and loggers write them.
 */

/** What stands in a cell where nothing was measured. */
const nothing = /^\s*(-+|n\/?a|nan|null|none|\?)?\s*$/i;

export function isEmptyCell(cell: string | undefined): boolean {
  return cell === undefined || nothing.test(cell);
}

/**
 * @returns The number, or what is wrong with the cell.
 * @example cellNumber('1.234,5', true) // => 1234.5
 */
export function cellNumber(cell: string, decimalComma: boolean): number | string {
  const text = cell.replace(/[\s\u00a0\u202f]/g, '').replace(/^\u2212/, '-');
  const grouped = decimalComma ? /^[+-]?\d{1,3}(\.\d{3})+(,\d+)?$/ : /^[+-]?\d{1,3}(,\d{3})+(\.\d+)?$/;
  let plain = text;
  if (grouped.test(text)) plain = text.replace(decimalComma ? /\./g : /,/g, '');
  if (decimalComma) plain = plain.replace(',', '.');
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain) ? Number(plain) : `"${cell.trim()}" is not a number`;
}
