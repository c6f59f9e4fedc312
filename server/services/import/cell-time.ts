/** Times as people and loggers write them. */
import { parseInstant } from '../../../shared/contracts/time.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import { instantOf, isSkipped } from '../../../shared/zoned-time.ts';

export interface TimeManner {
  readonly timeZone: string;
  /** Undefined while the file does not show it. */
  readonly dateOrder: 'day-first' | 'month-first' | undefined;
}

const clock = String.raw`(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,3})\d*)?)?\s*([AaPp])?\.?[Mm]?\.?`;
const yearFirst = new RegExp(String.raw`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ,]+${clock})?$`);
const yearLast = new RegExp(String.raw`^(\d{1,2})([-/.])(\d{1,2})([-/.])(\d{4}|\d{2})(?:[ ,]+${clock})?$`);

/** The longest time that is read [characters]; one with its fraction and its zone has 35. */
const longestTime = 60;

/** Whether cells such as these show which of day and month comes first. */
export function shownDateOrder(cells: readonly string[]): TimeManner['dateOrder'] {
  for (const cell of cells) {
    const parts = yearLast.exec(cell.trim());
    if (!parts || parts[2] !== parts[4]) continue;
    if (parts[2] === '.' || Number(parts[1]) > 12) return 'day-first';
    if (Number(parts[3]) > 12) return 'month-first';
  }
  return undefined;
}

/** @returns Epoch ms, or what is wrong with it. */
export function cellTime(cell: string, manner: TimeManner): number | Message {
  const text = cell.trim();
  if (text.length > longestTime)
    return message('import.long-time', { mostCount: longestTime, foundCount: text.length });
  const instant = parseInstant(
    /[T ]\d{1,2}:\d{2}([Zz]|[+-]\d{2}:\d{2})$/.test(text)
      ? text.replace(/(\d{2}:\d{2})([Zz]|[+-]\d{2}:\d{2})$/, '$1:00$2')
      : text,
  );
  if (instant !== undefined) return instant;
  const first = yearFirst.exec(text);
  if (first) return localTime([first[1], first[2], first[3]], first.slice(4), manner.timeZone, text);
  const last = yearLast.exec(text);
  if (!last || last[2] !== last[4]) return message('import.odd-time', { cellText: text });
  const [, one, , two, , year = ''] = last;
  if (manner.dateOrder === undefined) return message('import.day-or-month', { cellText: text });
  const [day, month] = manner.dateOrder === 'day-first' ? [one, two] : [two, one];
  return localTime([year.length === 2 ? `20${year}` : year, month, day], last.slice(6), manner.timeZone, text);
}

function localTime(
  date: readonly (string | undefined)[],
  [hour = '0', minute = '0', second = '0', ms = '0', half]: readonly (string | undefined)[],
  timeZone: string,
  text: string,
): number | Message {
  const [year = 0, month = 0, day = 0] = date.map(Number);
  const hours = half === undefined ? Number(hour) : (Number(hour) % 12) + (/p/i.test(half) ? 12 : 0);
  const dayMs = Date.UTC(year, month - 1, day);
  const exists = new Date(dayMs).getUTCMonth() === month - 1 && new Date(dayMs).getUTCDate() === day;
  if (!exists || hours > 23 || Number(minute) > 59 || Number(second) > 59)
    return message('import.no-such-day', { cellText: text });
  const wallMs = dayMs + ((hours * 60 + Number(minute)) * 60 + Number(second)) * 1000 + Number(ms.padEnd(3, '0'));
  // A logger has never shown it: more likely its clock goes by another zone.
  if (isSkipped(wallMs, timeZone)) return message('import.skipped-hour', { cellText: text, zoneName: timeZone });
  return instantOf(wallMs, timeZone);
}
