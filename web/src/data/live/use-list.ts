/** Several words in a row, as the language that is read joins them. */
import { regionOf } from '../../../../shared/messages/language.ts';
import { language } from '../language.ts';

/** @example useList()(['core', 'top', 'air']) // => "core, top and air", or "centro, arriba y aire" */
export function useList(): (words: readonly string[]) => string {
  const list = new Intl.ListFormat(regionOf(language), { type: 'conjunction' });
  return (words) => list.format(words);
}
