/**
 * Clocks on walls, by the machine's own zone data (Intl). One rule where clocks change, that of RFC 5545 section 3.3.5,
 * which Temporal calls "compatible": a time they showed twice means the first, one they skipped goes by the offset before.
 */
import { msPerDay, msPerMinute } from './units.ts';

const formats = new Map<string, Intl.DateTimeFormat>();
const offsets = new Map<string, number>();
/** So long an offset is remembered where it does not change meanwhile. */
const stepMs = 15 * msPerMinute;
const mostOffsets = 20_000;

/** How far a zone's clocks stand ahead of UTC at an instant [ms]. @param timeZone Undefined for that of this machine. */
export function offsetMs(atMs: number, timeZone: string | undefined): number {
  if (timeZone === 'UTC') return 0;
  const step = Math.floor(atMs / stepMs);
  const key = `${timeZone ?? ''} ${step}`;
  const known = offsets.get(key);
  if (known !== undefined) return known;
  const found = readOffset(step * stepMs, timeZone);
  if (found !== readOffset((step + 1) * stepMs, timeZone)) return readOffset(atMs, timeZone);
  if (offsets.size > mostOffsets) offsets.clear();
  offsets.set(key, found);
  return found;
}

function readOffset(atMs: number, timeZone: string | undefined): number {
  const secondMs = Math.floor(atMs / 1000) * 1000;
  return wallClock(secondMs, timeZone) - secondMs;
}

function wallClock(atMs: number, timeZone: string | undefined): number {
  const part = Object.fromEntries(
    formatOf(timeZone)
      .formatToParts(atMs)
      .map(({ type, value }) => [type, Number(value)]),
  );
  const { year = 0, month = 1, day = 1, hour = 0, minute = 0, second = 0 } = part;
  return Date.UTC(year, month - 1, day, hour, minute, second);
}

function formatOf(timeZone: string | undefined): Intl.DateTimeFormat {
  const known = formats.get(timeZone ?? '');
  if (known) return known;
  const made = new Intl.DateTimeFormat('en-US', {
    ...(timeZone !== undefined && { timeZone }),
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
    second: 'numeric',
  });
  formats.set(timeZone ?? '', made);
  return made;
}

/** What the clocks of a zone show, as the instant at which those of UTC show it [epoch ms]. */
export function wallOf(atMs: number, timeZone: string | undefined): number {
  return atMs + offsetMs(atMs, timeZone);
}

/**
 * The instant at which the clocks of a zone show this, by the rule above.
 *
 * @param wallMs The instant at which those of UTC show it [epoch ms].
 * @example instantOf(Date.UTC(2031, 2, 30, 1, 30), 'Europe/Lisbon') // => 01:30 UTC: skipped, so 02:30 of summer time
 */
export function instantOf(wallMs: number, timeZone: string | undefined): number {
  // An offset of the day before and of the day after: nowhere do clocks change twice between.
  const before = wallMs - offsetMs(wallMs - msPerDay, timeZone);
  const after = wallMs - offsetMs(wallMs + msPerDay, timeZone);
  const shown = [before, after].filter((atMs) => wallOf(atMs, timeZone) === wallMs);
  return shown.length > 0 ? Math.min(...shown) : before;
}

/** Whether the clocks of a zone never show this, as they are put forward over it. */
export function isSkipped(wallMs: number, timeZone: string | undefined): boolean {
  return wallOf(instantOf(wallMs, timeZone), timeZone) !== wallMs;
}

/** @example dayOf(Date.UTC(2031, 5, 1, 23, 30), 'Europe/Lisbon') // => "2031-06-02" */
export function dayOf(atMs: number, timeZone: string | undefined): string {
  return new Date(wallOf(atMs, timeZone)).toISOString().slice(0, 10);
}

/** @returns month 1..12 */
export function monthOf(atMs: number, timeZone: string | undefined): { year: number; month: number } {
  const wall = new Date(wallOf(atMs, timeZone));
  return { year: wall.getUTCFullYear(), month: wall.getUTCMonth() + 1 };
}

/** Minute of the day. @example minuteOfDay(Date.UTC(2031, 5, 1, 6), 'Europe/Lisbon') // => 420: seven o'clock in summer */
export function minuteOfDay(atMs: number, timeZone: string | undefined): number {
  const wallMs = wallOf(atMs, timeZone);
  return Math.floor((((wallMs % msPerDay) + msPerDay) % msPerDay) / msPerMinute);
}

export function isTimeZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en-GB', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}
