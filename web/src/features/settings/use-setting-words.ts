/** What the settings say themselves. */
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageSettingsTexts } from '../../../../shared/messages/made/en/page-settings.ts';
import type { PageSettingsParams } from '../../../../shared/messages/made/params/page-settings.ts';
import { type PageWords, usePageTexts } from '../../data/live/page-texts.ts';

export const useSettingWords = (): PageWords<PageSettingsParams> => usePageTexts(pageSettingsTexts, formatQuantity);
