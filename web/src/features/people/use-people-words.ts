/** What the pages of people, one’s own account and the audit log say. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pagePeopleTexts } from '../../../../shared/messages/made/en/page-people.ts';
import type { PagePeopleParams } from '../../../../shared/messages/made/params/page-people.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export type PeopleWords = PageWords<PagePeopleParams>;

export const usePeopleWords = (): PeopleWords => usePageTexts(pagePeopleTexts, formatQuantity);
