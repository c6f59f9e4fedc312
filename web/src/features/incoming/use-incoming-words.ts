/** What the page of messages that could not be used says itself; why one was refused is a message. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageIncomingTexts } from '../../../../shared/messages/made/en/page-incoming.ts';
import type { PageIncomingParams } from '../../../../shared/messages/made/params/page-incoming.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export type IncomingWords = PageWords<PageIncomingParams>;

export const useIncomingWords = (): IncomingWords => usePageTexts(pageIncomingTexts, formatQuantity);
