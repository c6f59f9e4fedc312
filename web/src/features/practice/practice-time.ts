/** The clock of a practice run: days are counted, and it is the same hour everywhere. */
import { msPerDay } from '../../../../shared/units.ts';
import { readerOf } from '../../data/prefs.ts';
import { clockTime, type Reader } from '../../ui/format/local-time.ts';

export function practiceReader(startedAtMs: number): Reader {
  const dayOneMs = Math.floor(startedAtMs / msPerDay) * msPerDay;
  return { timeZone: 'UTC', hour12: readerOf('mine', null).hour12, dayOneMs };
}

/** @example whenOf(startedAtMs, reader) // => { dayNumber: 1, clockText: "08:00" } */
export function whenOf(atMs: number, reader: Reader): { readonly dayNumber: number; readonly clockText: string } {
  const dayNumber = Math.floor((atMs - (reader.dayOneMs ?? 0)) / msPerDay) + 1;
  return { dayNumber, clockText: clockTime(atMs, reader) };
}

/** Real time that a run takes at an hour a second without a pause: about two minutes, two to three, three to four. */
export function minutesOf(hours: number): 'two' | 'three' | 'other' {
  const minutes = hours / 60;
  return minutes < 1.75 ? 'two' : minutes < 2.75 ? 'three' : 'other';
}

/** To half days. @example daysOf(132) // => { dayCount: 5, isHalf: true } */
export function daysOf(hours: number): { readonly dayCount: number; readonly isHalf: boolean } {
  return { dayCount: Math.floor(hours / 24), isHalf: hours % 24 >= 12 };
}
