import { handTexts } from '../../../../shared/messages/made/en/hand.ts';
import { phaseTexts } from '../../../../shared/messages/made/en/phase.ts';
import { warningsTexts } from '../../../../shared/messages/made/en/warnings.ts';
import { whyTexts } from '../../../../shared/messages/made/en/why.ts';
import { rendererOf } from '../../../../shared/messages/renderer.ts';

/** What a rule saw, and the rule itself. */
export const renderWhy = rendererOf({ ...warningsTexts, ...whyTexts, ...handTexts, ...phaseTexts });
