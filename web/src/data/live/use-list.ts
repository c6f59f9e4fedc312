/** Several words in a row, as the language that is read joins them. */
import { fallback, regionOf } from '../../../../shared/messages/language.ts';
import { useOtherLanguage } from '../language.ts';

/** @example useList()(['core', 'top', 'air']) // => "core, top and air", or "centro, arriba y aire" */
export function useList(): (words: readonly string[]) => string {
  const language = useOtherLanguage()?.language ?? fallback;
  const list = new Intl.ListFormat(regionOf(language), { type: 'conjunction' });
  return (words) => list.format(words);
}
