/** What was laid and how, in words. */
import { laidTexts } from '../../../../shared/messages/made/en/laid.ts';
import { materialTexts } from '../../../../shared/messages/made/en/material.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';

export const renderLaid = rendererOf({ ...laidTexts, ...materialTexts });
