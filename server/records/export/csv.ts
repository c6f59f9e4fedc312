/**
 * server/records/export/csv.ts: rows as CSV (RFC 4180), in UTF-8, safe to open in a spreadsheet.
 *
 * Never:  lets text that a person wrote be taken for a formula: such a cell gets an apostrophe before it, which our import
 *         takes off again.
 */
export type Cell = string | number | boolean | null | undefined;

/** @example csvLine(['a "b"', 3, null, '=1+1']) // => '"a ""b""",3,,"\'=1+1"\r\n' */
export function csvLine(cells: readonly Cell[]): string {
  return `${cells.map(csvCell).join(',')}\r\n`;
}

/**
 * What a spreadsheet may take for a formula; spaces, tabs and line ends may hide one. Apostrophes before it are counted in, so
 * that each can be taken off again.
 */
const formulaStart = /^'*\s*[=+\-@＝＋－＠]|^'*[\t\r\n]/;

function csvCell(cell: Cell): string {
  if (cell === null || cell === undefined) return '';
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : '';
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  const safe = formulaStart.test(cell) ? `'${cell}` : cell;
  return /[",\r\n']|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** Takes off the apostrophe that csvCell set. */
export function withoutGuard(cell: string): string {
  return cell.startsWith("'") && formulaStart.test(cell.slice(1)) ? cell.slice(1) : cell;
}
