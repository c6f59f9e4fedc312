/** What the page of notifications says itself; what became of a message has its words in `use-sent-words.ts`. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageNotificationsTexts } from '../../../../shared/messages/made/en/page-notifications.ts';
import type { PageNotificationsParams } from '../../../../shared/messages/made/params/page-notifications.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export type NotificationWords = PageWords<PageNotificationsParams>;

export const useNotificationWords = (): NotificationWords => usePageTexts(pageNotificationsTexts, formatQuantity);
