/** Instants in the person's own zone or the site's. */
import { clockOptions } from '../../../../shared/hour-cycle.ts';
import { fallback, regionOf } from '../../../../shared/messages/language.ts';
import { msPerDay, msPerMinute } from '../../../../shared/units.ts';
import { instantOf, wallOf } from '../../../../shared/zoned-time.ts';
import type { Reader } from '../../data/reader.ts';
import { textNow } from '../../data/text-now.ts';

export type { Reader } from '../../data/reader.ts';

const kept = new Map<string, Intl.DateTimeFormat>();

/** Making a formatter is slow next to using one, and a table uses thousands. */
function formatter(reader: Reader, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = JSON.stringify([reader, options]);
  const known = kept.get(key);
  if (known) return known;
  const made = new Intl.DateTimeFormat(regionOf(reader.language ?? fallback), {
    ...options,
    ...(reader.timeZone ? { timeZone: reader.timeZone } : {}),
  });
  kept.set(key, made);
  return made;
}

export function clockTime(atMs: number, reader: Reader): string {
  return formatter(reader, clockOptions(reader.hour12)).format(atMs);
}

/** @example dayAndTime(0, reader) // => "Thu 1 Jan, 00:00" */
export function dayAndTime(atMs: number, reader: Reader): string {
  return `${shortDay(atMs, reader)}, ${clockTime(atMs, reader)}`;
}

/** The time alone for what is of the same day as now. */
export function nearTime(atMs: number, nowMs: number, reader: Reader): string {
  return shortDay(atMs, reader) === shortDay(nowMs, reader) ? clockTime(atMs, reader) : dayAndTime(atMs, reader);
}

export function shortDay(atMs: number, reader: Reader): string {
  if (reader.dayOneMs !== undefined)
    return textNow('page-words.day', { dayNumber: Math.floor((atMs - reader.dayOneMs) / msPerDay) + 1 });
  const { yearNow } = reader;
  const isOther = yearNow !== undefined && new Date(atMs).getUTCFullYear() !== yearNow;
  const day = { weekday: 'short', day: 'numeric', month: 'short' } as const;
  return formatter(reader, isOther ? { ...day, year: 'numeric' } : day)
    .format(atMs)
    .replace(',', '');
}

export function longDay(atMs: number, reader: Reader): string {
  return formatter(reader, { weekday: 'long', day: 'numeric', month: 'long' }).format(atMs).replace(',', '');
}

/** The instant that a form's "2031-04-05T06:07" means in a zone; undefined when it is not a time. */
export function instantOfWall(text: string, timeZone: string | undefined): number | undefined {
  const parts = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})/.exec(text);
  if (!parts) return undefined;
  const [year, month, day, hour, minute] = parts.slice(1).map(Number) as [number, number, number, number, number];
  const wallMs = Date.UTC(year, month - 1, day, hour, minute);
  if (Number.isNaN(wallMs)) return undefined;
  return instantOf(wallMs, timeZone);
}

/** What a form shows for an instant: "2031-04-05T06:07" on the zone's wall clock. */
export function wallOfInstant(atMs: number, timeZone: string | undefined): string {
  const minuteMs = Math.floor(atMs / msPerMinute) * msPerMinute;
  return new Date(wallOf(minuteMs, timeZone)).toISOString().slice(0, 16);
}
