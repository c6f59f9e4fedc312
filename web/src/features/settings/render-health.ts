/** How each part of the server is, in sentences. */
import { healthTexts } from '../../../../shared/messages/made/en/health.ts';
import { noticeTexts } from '../../../../shared/messages/made/en/notice.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';

export const renderHealth = rendererOf({ ...healthTexts, ...noticeTexts });
