/** Days with their year, for what is read years later. */
import { fallback, regionOf } from '../../../../shared/messages/language.ts';
import type { Reader } from './local-time.ts';

/** @example fullDay(0, reader) // => "1 Jan 1970" */
export function fullDay(atMs: number, { timeZone, language = fallback }: Reader): string {
  return new Intl.DateTimeFormat(regionOf(language), {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    ...(timeZone ? { timeZone } : {}),
  }).format(atMs);
}
