/**
 * Words of this moment, for what is worded outside of what a component draws or by many of them. A page in another language is drawn anew
 * from its root as soon as that is known (`app.tsx`), and so worded again.
 */
import { fallback } from '../../../shared/messages/language.ts';
import { pageWordsTexts } from '../../../shared/messages/made/en/page-words.ts';
import type { PageWordsParams } from '../../../shared/messages/made/params/page-words.ts';
import { writePage } from '../../../shared/messages/page-text.ts';
import type { NoParams } from '../../../shared/messages/param-types.ts';
import { otherLanguage } from './language.ts';

type Rest<Params> = NoParams extends Params ? [] : [params: Params];

/** What several pages say. @example textNow('page-words.ago', { lengthText: '3 h' }) // => "3 h ago" */
export function textNow<Code extends keyof PageWordsParams>(code: Code, ...[params]: Rest<PageWordsParams[Code]>) {
  const other = otherLanguage();
  const own = other?.pages[code];
  const language = other && own !== undefined ? other.language : fallback;
  return writePage<string>(own ?? pageWordsTexts[code], (params ?? {}) as Record<string, unknown>, {
    language,
    value: (_name, value) =>
      typeof value === 'string' ? value : new Intl.NumberFormat(language).format(Number(value)),
    tag: (_wrap, inner) => inner.join(''),
  }).join('');
}

/** A name of what is found, which takes nothing. @param english Of its topic. */
export function nameNow<Texts extends Readonly<Record<string, string>>>(
  english: Texts,
  code: keyof Texts & string,
): string {
  return otherLanguage()?.texts[code] ?? String(english[code]);
}
