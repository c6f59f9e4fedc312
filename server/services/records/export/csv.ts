/**
 * Rows as CSV (RFC 4180), in UTF-8, safe to open in a spreadsheet. It never lets text that a person wrote be taken for
 * a formula: such a cell gets an apostrophe before it, which our import takes off again.
 */
export type Cell = string | number | boolean | null | undefined;

/** @example csvLine(['a "b"', 3, null, '=1+1']) // => '"a ""b""",3,,"\'=1+1"\r\n' */
export function csvLine(cells: readonly Cell[]): string {
  return `${cells.map(csvCell).join(',')}\r\n`;
}

/**
 * What a spreadsheet may take for a formula at the start of a cell; spaces, tabs, line ends and quotation marks may hide
 * one. Apostrophes before it are counted in, so that each can be taken off again.
 */
const formulaStart = /^'*["\s]*[=+\-@＝＋－＠]|^'*[\t\r\n]/;

/**
 * Where another program may begin a cell within ours: in many countries a spreadsheet parts cells by semicolons, and then
 * neither knows of our commas nor of quotation marks after them.
 */
const partings = /(?<=[;\t|\r\n])/;

/** The rule of a whole cell, for the parts of one that another program would take for cells. */
const isPartFormula = (part: string) => /^'*["\s]*[=+\-@＝＋－＠]/.test(part);

function guarded(cell: string): string {
  const [first = '', ...rest] = cell.split(partings);
  const start = formulaStart.test(first) ? `'${first}` : first;
  return [start, ...rest.map((part) => (isPartFormula(part) ? `'${part}` : part))].join('');
}

function csvCell(cell: Cell): string {
  if (cell === null || cell === undefined) return '';
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : '';
  if (typeof cell === 'boolean') return cell ? 'yes' : 'no';
  const safe = guarded(cell);
  return /[",;\t|\r\n']|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** Takes off the apostrophes that csvCell set. */
export function withoutGuard(cell: string): string {
  if (!cell.includes("'")) return cell;
  const [first = '', ...rest] = cell.split(partings);
  return [
    first.startsWith("'") && formulaStart.test(first.slice(1)) ? first.slice(1) : first,
    ...rest.map((part) => (part.startsWith("'") && isPartFormula(part.slice(1)) ? part.slice(1) : part)),
  ].join('');
}
