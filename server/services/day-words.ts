/** Instants as people write them, in a site's own time. */
import { isTimeZone } from '../../shared/zoned-time.ts';

const formats = new Map<string, Intl.DateTimeFormat>();

function format(key: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const known = formats.get(key);
  if (known) return known;
  const made = new Intl.DateTimeFormat('en-GB', options);
  formats.set(key, made);
  return made;
}

/** "UTC" for a zone this machine does not know. */
export function knownZone(timeZone: string | null | undefined): string {
  if (!timeZone || !isTimeZone(timeZone)) return 'UTC';
  return new Intl.DateTimeFormat('en-GB', { timeZone }).resolvedOptions().timeZone;
}

/** @example dayWords(Date.UTC(2031, 3, 3)) // => '3 Apr 2031' */
export function dayWords(atMs: number, timeZone = 'UTC'): string {
  return format(`day ${timeZone}`, { timeZone, day: 'numeric', month: 'short', year: 'numeric' }).format(atMs);
}

/** @example timeWords(Date.UTC(2031, 3, 3, 14, 5)) // => '3 Apr 2031, 14:05' */
export function timeWords(atMs: number, timeZone = 'UTC'): string {
  const time = format(`time ${timeZone}`, { timeZone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
  return `${dayWords(atMs, timeZone)}, ${time.format(atMs)}`;
}
