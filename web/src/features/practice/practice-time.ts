/** The clock of a practice run: days are counted, and it is the same hour everywhere. */
import { msPerDay } from '../../../../shared/units.ts';
import { readerOf } from '../../data/prefs.ts';
import type { Reader } from '../../ui/format/local-time.ts';
import { countWord } from '../../ui/format/words.ts';

export function practiceReader(startedAtMs: number): Reader {
  const dayOneMs = Math.floor(startedAtMs / msPerDay) * msPerDay;
  return { timeZone: 'UTC', hour12: readerOf('mine', null).hour12, dayOneMs };
}

/** Real time a run takes at an hour a second without a pause, in words. */
export function runLengthWords(hours: number): string {
  const minutes = hours / 60;
  return `about ${minutes < 1.75 ? 'two minutes' : minutes < 2.75 ? 'two to three minutes' : 'three to four minutes'}`;
}

/** @example daysWords(132) // => "five and a half days" */
export function daysWords(hours: number): string {
  const whole = Math.floor(hours / 24);
  return `${countWord(whole)}${hours % 24 >= 12 ? ' and a half' : ''} days`;
}
