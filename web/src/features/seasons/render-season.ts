/** Sentences about batches beside each other. */
import { laidTexts } from '../../../../shared/messages/made/en/laid.ts';
import { materialTexts } from '../../../../shared/messages/made/en/material.ts';
import { seasonTexts } from '../../../../shared/messages/made/en/season.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';

export const renderSeason = rendererOf({ ...seasonTexts, ...materialTexts, ...laidTexts });
