/** Words for what is worded outside of what a component draws, or by many of them. */
import { pageWordsTexts } from '../../../shared/messages/made/en/page-words.ts';
import type { PageWordsParams } from '../../../shared/messages/made/params/page-words.ts';
import { writeCount, writePage } from '../../../shared/messages/page-text.ts';
import type { NoParams } from '../../../shared/messages/param-types.ts';
import { language } from './language.ts';

type Rest<Params> = NoParams extends Params ? [] : [params: Params];

/** What several pages say. @example textNow('page-words.ago', { lengthText: '3 h' }) // => "3 h ago" */
export function textNow<Code extends keyof PageWordsParams>(code: Code, ...[params]: Rest<PageWordsParams[Code]>) {
  return writePage<string>(pageWordsTexts[code], (params ?? {}) as Record<string, unknown>, {
    language,
    value: (_name, value) => (typeof value === 'string' ? value : writeCount(Number(value), language)),
    tag: (_wrap, inner) => inner.join(''),
  }).join('');
}
