/**
 * A notebook's table of temperatures, a line each: day, perhaps a time, core, perhaps air. It never guesses between day
 * and month: a table that does not show which comes first asks for it.
 */

import { type Message, message } from '../../../shared/messages/message.ts';
import { quantityFacts } from '../../../shared/quantity.ts';
import { fahrenheitToCelsius, msPerHour } from '../../../shared/units.ts';
import { cellNumber, isEmptyCell } from '../import/cell-number.ts';
import { cellTime, shownDateOrder, type TimeManner } from '../import/cell-time.ts';

interface DayRow {
  readonly atMs: number;
  readonly coreC: number;
  readonly airC: number | null;
}

export interface DayTable {
  readonly rows: readonly DayRow[];
  readonly refused: readonly { readonly line: number; readonly text: string; readonly said: Message }[];
}

export interface DayManner {
  readonly timeZone: string;
  readonly dateOrder: TimeManner['dateOrder'];
  readonly unit: 'C' | 'F';
}

/** A day without a time: somebody looked some time that day. */
const noonMs = 12 * msPerHour;

export function readDayTable(text: string, { timeZone, dateOrder, unit }: DayManner): DayTable {
  const lines = text.split(/\r?\n/).map((line) => line.trim());
  const cells = lines.map(cellsOf);
  const manner: TimeManner = { timeZone, dateOrder: dateOrder ?? shownDateOrder(cells.map(({ time }) => time)) };
  const rows = new Map<number, DayRow>();
  const refused: { line: number; text: string; said: Message }[] = [];
  for (const [i, line] of lines.entries()) {
    const { time, values, decimalComma } = cells[i] as Cells;
    // The first line may be a heading.
    if (line === '' || (i === 0 && !/^\d/.test(time))) continue;
    const refuse = (said: Message) => refused.push({ line: i + 1, text: line.slice(0, 200), said });
    const at = cellTime(time, manner);
    const core = temperature(values[0], decimalComma, unit);
    const air = isEmptyCell(values[1]) ? null : temperature(values[1], decimalComma, unit);
    if (typeof at !== 'number') refuse(at);
    else if (typeof core !== 'number') refuse(core);
    else if (air !== null && typeof air !== 'number') refuse(air);
    else {
      const atMs = /\d:\d/.test(time) ? at : at + noonMs;
      if (rows.has(atMs)) refuse(message('import.same-time'));
      else rows.set(atMs, { atMs, coreC: core, airC: air });
    }
  }
  return { rows: [...rows.values()].sort((a, b) => a.atMs - b.atMs), refused };
}

interface Cells {
  /** Day, with the time behind it where there is one. */
  readonly time: string;
  readonly values: readonly string[];
  readonly decimalComma: boolean;
}

function cellsOf(line: string): Cells {
  const [separator, decimalComma] = /[;\t]/.test(line)
    ? ([/[;\t]/, line.includes(',')] as const)
    : /,\s|^\S+$/.test(line)
      ? ([/,/, false] as const)
      : ([/\s+/, line.includes(',')] as const);
  const [first = '', ...others] = line.split(separator).map((cell) => cell.trim());
  const hasClock = /^\d{1,2}:\d{2}(:\d{2})?$/.test(others[0] ?? '');
  return {
    time: hasClock ? `${first} ${others[0]}` : first,
    values: hasClock ? others.slice(1) : others,
    decimalComma,
  };
}

/** @returns [°C], or what is wrong with the cell. */
function temperature(cell: string | undefined, decimalComma: boolean, unit: 'C' | 'F'): number | Message {
  if (cell === undefined || isEmptyCell(cell)) return message('import.no-temperature');
  const value = cellNumber(cell.replace(/°\s*[CF]?$/i, ''), decimalComma);
  if (typeof value !== 'number') return value;
  const tempC = unit === 'F' ? fahrenheitToCelsius(value) : value;
  const { min, max } = quantityFacts.temperature;
  return tempC >= min && tempC <= max
    ? tempC
    : message('import.temperature-range', { cellText: cell, leastC: min, mostC: max });
}
