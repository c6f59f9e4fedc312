/** Sentences about batches beside each other. */
import { seasonTexts } from '../../../../shared/messages/made/en/season.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';

export const renderSeason = rendererOf(seasonTexts);
