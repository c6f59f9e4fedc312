/** What the pages say by which somebody comes in. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageSignInTexts } from '../../../../shared/messages/made/en/page-sign-in.ts';
import type { PageSignInParams } from '../../../../shared/messages/made/params/page-sign-in.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export const useSignInWords = (): PageWords<PageSignInParams> => usePageTexts(pageSignInTexts, formatQuantity);
